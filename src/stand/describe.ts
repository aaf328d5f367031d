// One sentence per entry, for the log, the replay and the report.
import { type Event, type QuantityEntered, speciesName } from '../events/index.ts';
import { groupLabel, hazardLabel, saplingLabel, stemLabel, words } from './labels.ts';
import type { Stand } from './state.ts';

/** Names of people by the hash that their entry holds; erased ones are missing. */
export type Names = ReadonlyMap<string, string>;

/** What an event says, in words, with the labels that things carry in `stand`. */
export function describe(event: Event, stand: Stand, names: Names = new Map()): string {
  return parts(event, stand, names)
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
}

type Parts = (string | undefined)[];

function parts(event: Event, stand: Stand, names: Names): Parts {
  const stem = (id: string | undefined) => stemLabel(id === undefined ? undefined : stand.stems.get(id));
  const group = (id: string | undefined) => groupLabel(id === undefined ? undefined : stand.groups.get(id));
  const block = (id: string | undefined) =>
    id === undefined ? '' : (stand.blocks.get(id)?.name ?? 'an unknown block');
  const protectedThing = (sapling: string | undefined, patch: string | undefined) =>
    saplingLabel(sapling === undefined ? stand.patches.get(patch ?? '') : stand.saplings.get(sapling));

  switch (event.type) {
    case 'logbook-opened':
      return [
        `logbook of ${event.body.name}`,
        event.body.zone,
        event.body.crs,
        event.body.units === 'us' ? 'US customary units' : 'metric units',
      ];
    case 'person-named':
      return [`named ${names.get(event.body.name) ?? 'somebody (erased)'}`, event.body.part];
    case 'personal-data-erased':
      return ['personal data erased', event.body.reason];
    case 'block-laid-out':
      return [
        `block ${event.body.name}`,
        written('area', event.body.area),
        event.body.boundary && `${event.body.boundary.length} corners`,
      ];
    case 'prescription-set':
      return [`prescription for ${block(event.body.block)}`, event.body.objective, event.body.by];
    case 'tally-scope-set':
      return [
        `tally of ${block(event.body.block)} is ${event.body.coverage}`,
        written('floor', event.body.floor),
      ];
    case 'stake-set':
      return [`stake ${event.body.label}`, event.body.what];
    case 'group-laid-out':
      return [`group ${event.body.label}`, event.body.reason];
    case 'group-widened':
      return [`${group(event.body.group)} widened`, event.body.reason];
    case 'opening-closed':
      return [
        `opening of ${group(event.body.group)} closed`,
        event.body.slash && `slash ${event.body.slash}`,
        event.body.note,
      ];
    case 'opening-reopened':
      return [`opening of ${group(event.body.group)} reopened`, event.body.reason];
    case 'stem-marked':
      return [
        `${stem(event.body.stem)} marked to ${event.body.mark === 'cut' ? 'be cut' : 'stay'}`,
        event.body.species && speciesName(event.body.species),
        written('DBH', event.body.dbh),
        event.body.purpose,
        event.body.reason,
      ];
    case 'mark-changed':
      return [
        `${stem(event.body.stem)} is now to ${event.body.mark === 'cut' ? 'be cut' : 'stay'}`,
        event.body.purpose,
        event.body.reason,
      ];
    case 'stem-measured':
      return [
        `${stem(event.body.stem)} measured again`,
        written('DBH', event.body.dbh),
        written('height', event.body.height),
      ];
    case 'tag-lost':
      return [`tag of ${stem(event.body.stem)} lost`, event.body.note];
    case 'tag-replaced':
      return [`tag replaced: ${event.body.tag}`];
    case 'stem-felled':
      return [
        `${stem(event.body.stem)} felled, ${event.body.came === 'down' ? 'down' : `hung up in ${event.body.hungOn === undefined ? 'another tree' : stem(event.body.hungOn)}`}`,
        event.body.lay === undefined ? 'lay not measured' : `lay ${event.body.lay.text}`,
        event.body.differed,
      ];
    case 'hang-up-cleared':
      return [`${stem(event.body.stem)} brought down`, event.body.how];
    case 'stem-found-down':
      return [`${stem(event.body.stem)} found down`, event.body.cause];
    case 'stem-found-dead':
      return [`${stem(event.body.stem)} found dead`, event.body.note];
    case 'decay-measured':
      return [
        `stump of ${stem(event.body.stem)}: ${event.body.found === 'none' ? 'looked, no decay' : event.body.found}`,
        written('up the butt', event.body.upTheButt),
        written('across', event.body.diameter),
        written('shell', event.body.shell),
      ];
    case 'sapling-protected':
      return [
        `${protectedThing(event.body.sapling, undefined)} protected`,
        event.body.species && speciesName(event.body.species),
        written('height', event.body.height),
      ];
    case 'patch-protected':
      return [
        `patch ${protectedThing(undefined, event.body.patch)} protected`,
        event.body.species && speciesName(event.body.species),
      ];
    case 'sapling-checked':
      return [
        `${protectedThing(event.body.sapling, event.body.patch)} ${words(event.body.condition)}`,
        event.body.by && `by ${stem(event.body.by)}`,
        event.body.note,
      ];
    case 'hazard-noted':
      return [
        `hazard: ${words(event.body.what)}`,
        event.body.stem && `at ${stem(event.body.stem)}`,
        event.body.note,
      ];
    case 'hazard-cleared': {
      const hazard = stand.hazards.get(event.body.hazard);
      return [`hazard cleared: ${hazard ? hazardLabel(stand, hazard) : 'unknown hazard'}`, event.body.how];
    }
    case 'damage-noted':
      return [
        `damage to ${event.body.stem === undefined ? words(event.body.to) : stem(event.body.stem)}`,
        written('wound', event.body.woundArea),
        event.body.by && `by ${stem(event.body.by)}`,
        event.body.what,
      ];
    case 'note-written':
      return [event.body.text];
    case 'photo-taken':
      return ['photo', event.body.of];
    case 'clock-offset-noted':
      return [`clock of a device found ${event.body.ahead.text} ahead`];
    case 'report-issued':
      return [`report "${event.body.report}" issued`, `log of ${event.body.size} entries`, event.body.to];
    case 'entry-amended':
      return ['an entry amended', event.body.reason];
    case 'entry-struck':
      return ['an entry struck', event.body.reason];
  }
}

function written(what: string, quantity: QuantityEntered | undefined): string | undefined {
  if (quantity === undefined) return undefined;
  return `${what} ${withUnit(quantity)}`;
}

/** A quantity as it was written; a bare number with the unit that it took. */
export function withUnit(quantity: QuantityEntered): string {
  return /^[-+\d.\s]+$/.test(quantity.text) ? `${quantity.text} ${quantity.unit}` : quantity.text;
}
