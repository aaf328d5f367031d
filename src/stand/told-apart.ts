// What tells things apart that are called the same: group, species, size, and the entry that brought them in.
import { type JsonValue, type Noun, speciesName } from '../events/index.ts';
import { hazardWords } from './dangers.ts';
import type { LogEntry } from './entry.ts';
import type { Folded } from './fold.ts';
import { groupLabel, saplingLabel, stemLabel, withUnit, words } from './labels.ts';
import type { Stand } from './state.ts';

/** One thing in words that name more than its label. */
export function toldApart(
  noun: Noun,
  id: string,
  { stand, entries }: Pick<Folded, 'stand' | 'entries'>,
  names: ReadonlyMap<string, string> = new Map(),
): string {
  const position = entries.get(thingsOf(stand, noun).get(id)?.entries[0] ?? '')?.position;
  return [...wordsFor(stand, noun, id, names), position === undefined ? undefined : `entry ${position}`]
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
}

/** The things of one kind, by id. */
function thingsOf(stand: Stand, noun: Noun): ReadonlyMap<string, Readonly<{ entries: string[] }>> {
  switch (noun) {
    case 'person':
      return stand.people;
    case 'patch':
      return stand.patches;
    default:
      return stand[`${noun}s`];
  }
}

function wordsFor(
  stand: Stand,
  noun: Noun,
  id: string,
  names: ReadonlyMap<string, string>,
): (string | undefined)[] {
  const inGroup = (group: string | undefined) =>
    group === undefined ? undefined : `in ${groupLabel(stand.groups.get(group))}`;
  switch (noun) {
    case 'stem': {
      const stem = stand.stems.get(id);
      const mark = stem?.mark === undefined ? undefined : `to ${stem.mark === 'cut' ? 'be cut' : 'stay'}`;
      const dbh = stem?.dbh === undefined ? undefined : `DBH ${withUnit(stem.dbh)}`;
      return [stemLabel(stem), stem?.species && speciesName(stem.species), dbh, mark, inGroup(stem?.group)];
    }
    case 'sapling':
    case 'patch': {
      const thing = noun === 'sapling' ? stand.saplings.get(id) : stand.patches.get(id);
      return [saplingLabel(thing), thing?.species && speciesName(thing.species), inGroup(thing?.group)];
    }
    case 'hazard': {
      const hazard = stand.hazards.get(id);
      return [hazard && hazardWords(stand, hazard)];
    }
    case 'damage': {
      const body = stand.damages.get(id)?.body;
      const stem = body?.stem === undefined ? undefined : stemLabel(stand.stems.get(body.stem));
      return [body && words(body.to), stem, body?.what, inGroup(body?.group)];
    }
    case 'group': {
      const { block, reason } = stand.groups.get(id) ?? {};
      return [groupLabel(stand.groups.get(id)), block && stand.blocks.get(block)?.name, reason];
    }
    case 'feature': {
      const feature = stand.features.get(id);
      return [feature?.label, feature?.body && words(feature.body.what)];
    }
    case 'stake':
      return [stand.stakes.get(id)?.label, stand.stakes.get(id)?.what];
    case 'block':
      return [stand.blocks.get(id)?.name];
    case 'person': {
      const person = stand.people.get(id);
      return [names.get(person?.name ?? ''), person?.part];
    }
  }
}

/** The thing that entry number `position` brought in or speaks of, if the stand has it. */
export function thingInEntry(
  noun: Noun,
  position: number,
  { stand, entries }: Pick<Folded, 'stand' | 'entries'>,
): string | undefined {
  const things = thingsOf(stand, noun);
  for (const entry of entries.values()) {
    if (entry.position !== position) continue;
    const id = bodyOf(entry)?.[noun];
    return typeof id === 'string' && things.has(id) ? id : undefined;
  }
  return undefined;
}

/** The body of an entry; of an amendment the one that it puts in place. */
function bodyOf({ type, body }: LogEntry): { readonly [name: string]: JsonValue } | undefined {
  const inner = type === 'entry-amended' ? body.body : body;
  return typeof inner === 'object' && inner !== null && !Array.isArray(inner)
    ? (inner as { readonly [name: string]: JsonValue })
    : undefined;
}
