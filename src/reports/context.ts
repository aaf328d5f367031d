// What every part of a report reads from: the folded log, the numbers of its entries, names and times.
import { momentIn } from '../events/index.ts';
import { type Folded, type Happening, instantOf, type Names } from '../stand/index.ts';
import type { EntryNumber, Fact, Term } from './model.ts';

export type Context = Readonly<{
  folded: Folded;
  names: Names;
  /** Numbers of these entries, in order and without repeats; an amended one brings its amendment along. */
  numbers: (ids: Iterable<string | undefined>) => readonly EntryNumber[];
  number: (id: string) => EntryNumber;
  /** The happening that an entry stands for, if it is in force. */
  happening: (id: string | undefined) => Happening | undefined;
  /** A time in the logbook's zone, to the minute; the day only where no more is known. */
  time: (happenedAt: Happening['happenedAt']) => string;
  /** The moment of recording in the logbook's zone. */
  recorded: (time: string) => string;
  person: (id: string) => Fact;
}>;

export function contextOf(folded: Folded, positions: ReadonlyMap<string, number>, names: Names): Context {
  const happenings = new Map(folded.happenings.map((happening) => [happening.entry.id, happening]));
  const zone = folded.stand.logbook?.body.zone;
  const number = (id: string): EntryNumber => positions.get(id) ?? id;
  const numbers = (ids: Iterable<string | undefined>): readonly EntryNumber[] => {
    const found = new Set<EntryNumber>();
    for (const id of ids) {
      if (id === undefined) continue;
      found.add(number(id));
      const version = happenings.get(id)?.version;
      if (version !== undefined) found.add(number(version));
    }
    return [...found].sort(compareNumbers);
  };
  const time: Context['time'] = (happenedAt) => {
    const local = inZone(zone, instantOf({ ...happenedAt, precision: 'instant' }), happenedAt.at);
    return happenedAt.precision === 'day' ? happenedAt.at.slice(0, 10) : local;
  };
  const person = (id: string): Fact => {
    const named = folded.stand.people.get(id);
    if (named === undefined) return missing(`person not named (${id.slice(-6)})`);
    if (named.erased) return { text: 'name erased', known: false, entries: numbers(named.entries) };
    const name = names.get(named.name);
    return name === undefined
      ? { text: 'name not in this copy of the logbook', known: false, entries: numbers(named.entries) }
      : { text: name, known: true, entries: numbers(named.entries) };
  };
  return {
    folded,
    names,
    numbers,
    number,
    happening: (id) => (id === undefined ? undefined : happenings.get(id)),
    time,
    recorded: (written) => inZone(zone, Date.parse(written), written),
    person,
  };
}

function inZone(zone: string | undefined, instant: number, written: string): string {
  if (zone === undefined || !Number.isFinite(instant)) return written;
  return momentIn(zone, instant).slice(0, 16).replace('T', ' ');
}

function compareNumbers(a: EntryNumber, b: EntryNumber): number {
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  if (typeof a === typeof b) return String(a) < String(b) ? -1 : 1;
  return typeof a === 'number' ? -1 : 1;
}

/** Something that is known, with the entries it rests on. */
export function known(text: string, entries: readonly EntryNumber[] = []): Fact {
  return { text, known: true, entries };
}

/** Something that is not known: the text says what is missing. */
export function missing(text: string, entries: readonly EntryNumber[] = []): Fact {
  return { text, known: false, entries };
}

/** The text if there is one, else "not recorded". */
export function recordedOr(
  text: string | undefined,
  entries: readonly EntryNumber[] = [],
  otherwise = 'not recorded',
): Fact {
  return text === undefined || text === '' ? missing(otherwise) : known(text, entries);
}

export function term(name: string, fact: Fact): Term {
  return { term: name, fact };
}
