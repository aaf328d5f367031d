// What things are called in sentences: their tag or label, or something that still tells them apart.
import { type Body, type QuantityEntered, speciesName } from '../events/index.ts';
import type { Group, Hazard, Patch, Sapling, Stand, Stem } from './state.ts';

export function stemLabel(stem: Stem | undefined): string {
  if (stem === undefined) return 'an unknown stem';
  if (stem.tag !== undefined) return stem.tagLost ? `${stem.tag} (tag lost)` : stem.tag;
  const species = stem.species === undefined ? 'stem' : speciesName(stem.species);
  return `an untagged ${species} (${shortId(stem.id)})`;
}

export function saplingLabel(sapling: Sapling | Patch | undefined): string {
  if (sapling === undefined) return 'an unknown sapling';
  return sapling.label ?? `an unlabelled sapling (${shortId(sapling.id)})`;
}

export function groupLabel(group: Group | undefined): string {
  return group === undefined ? 'an unknown group' : group.label;
}

export function hazardLabel(stand: Stand, hazard: Hazard): string {
  const what = words(hazard.what);
  return hazard.stem === undefined ? what : `${what} at ${stemLabel(stand.stems.get(hazard.stem))}`;
}

/** The last characters of a UUID: the random ones, which tell near neighbours apart. */
export function shortId(id: string): string {
  return id.slice(-6);
}

/** A code in words; "hung-up" keeps its hyphen before a noun. */
export function words(code: string): string {
  return code.replaceAll('-', ' ').replace(/^hung up (?=\w)/, 'hung-up ');
}

/** A quantity as it was written; a bare number with the unit that it took. */
export function withUnit(quantity: QuantityEntered): string {
  return /^[-+\d.\s]+$/.test(quantity.text) ? `${quantity.text} ${quantity.unit}` : quantity.text;
}

/** At which height and above which ground diameters are taken; undefined where it is not recorded. */
export function breastHeightWords({
  breastHeight,
  breastHeightFrom,
}: Body<'logbook-opened'>): string | undefined {
  if (breastHeight === undefined) return undefined;
  const ground = breastHeightFrom === undefined ? '' : ` above the ground (${words(breastHeightFrom)})`;
  return `${withUnit(breastHeight)}${ground}`;
}

/** "1 stem", "3 stems". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count.toLocaleString('en-US')} ${count === 1 ? one : many}`;
}
