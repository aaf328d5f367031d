// What is asked about the file before its entries are made: what its things are, whether trees are to be cut, when it was.
import type { Happened } from '../../log/entry/index.ts';
import { counted } from '../../stand/index.ts';
import { amount, type Doubting } from './doubt.ts';
import type { Mapping } from './mapping.ts';
import { type DateReader, dateReader, withoutDate } from './reading/dates.ts';
import type { Problem } from './reading/things.ts';
import { ImportRefusal, type Item } from './source.ts';
import { type Purpose, purposes, shapesFor } from './things.ts';

export function purposeOf(
  typed: string | undefined,
  items: readonly Item[],
  mapping: Mapping,
  doubts: Doubting,
): Purpose | undefined {
  const known = purposes.find((one) => one === typed);
  if (known !== undefined) return known;
  if (typed !== undefined) throw new ImportRefusal('--as', typed, `write one of ${purposes.join(', ')}`);
  const rows = items.some(({ shape }) => shape === 'row');
  if (rows && (mapping.mark ?? mapping.dbh ?? mapping.species) !== undefined) return 'stems';
  if (rows && mapping.label !== undefined) return 'stakes';
  const possible = purposes.filter((one) => items.some(({ shape }) => shapesFor[one].has(shape)));
  const points = items.filter(({ shape }) => shape === 'row' || shape === 'point').length;
  const lines = items.length - points;
  const held = [
    ...(points > 0 ? [counted(points, 'point')] : []),
    ...(lines > 0 ? [counted(lines, 'line or area', 'lines or areas')] : []),
  ].join(' and ');
  const answer = doubts.ask({
    code: 'as',
    sentence: `The file holds ${held === '' ? 'nothing' : held}. What ${items.length === 1 ? 'is it' : 'are they'}?`,
    where: items.map(({ where }) => where),
    choices: possible.map((one) => ({ answer: one, label: meanings[one] })),
  });
  return purposes.find((one) => one === answer);
}

const meanings: Readonly<Record<Purpose, string>> = {
  stems: 'the points are trees that were marked',
  stakes: 'the points are stakes that others are measured from',
  notes: 'the points are notes',
  boundary: 'the line is the boundary of a block',
  edge: 'the line is the edge of an opening, as walked',
  features: 'streams, roads, structures and other things on the ground',
};

/** A stem is marked to be cut or to stay, and nobody but a person can say which. */
export function markAsked(
  purpose: Purpose,
  cells: readonly { where: string; mark: string | undefined }[],
  fixed: Readonly<Record<string, string>>,
  doubts: Doubting,
): Record<string, string> {
  const without = cells.filter(({ mark }) => mark === undefined);
  if (purpose !== 'stems' || fixed.mark !== undefined || without.length === 0) return {};
  const where = without.map((one) => one.where);
  const answer = doubts.ask({
    code: 'mark',
    sentence: `Nothing says whether these trees are to be cut: ${amount(where, ['tree', 'trees'])}.`,
    where,
    choices: [
      { answer: 'leave', label: 'all of them are to stay' },
      { answer: 'cut', label: 'all of them are to be cut' },
    ],
  });
  return { mark: answer ?? 'leave' };
}

const knownFrom = [
  { answer: 'surveyed', label: 'a surveyor set it' },
  { answer: 'monuments', label: 'its corners were found on the ground' },
  { answer: 'walked', label: 'somebody walked it with a receiver' },
  { answer: 'map', label: 'it was drawn on a map or comes from a parcel file' },
  { answer: 'assumed', label: 'nobody knows how good it is' },
];

/** How far a tree must be from a boundary to be surely inside hangs on how the boundary is known. */
export function boundaryAsked(
  purpose: Purpose,
  where: readonly string[],
  fixed: Readonly<Record<string, string>>,
  doubts: Doubting,
): Record<string, string> {
  if (purpose !== 'boundary' || fixed.boundaryFrom !== undefined) return {};
  const answer = doubts.ask({
    code: 'boundary-from',
    sentence: 'Nothing says how this boundary is known; trees near its line are judged by that.',
    where,
    choices: knownFrom,
  });
  return answer === undefined ? {} : { boundaryFrom: answer };
}

/** When a thing happened, as the file writes it: its own time, or the last one of a line that was walked. */
export function whenOf(
  item: Item,
  { date, time }: Readonly<Record<string, string | undefined>>,
): { where: string; text: string | undefined } {
  const own = date === undefined ? time : time === undefined ? date : `${date} ${time}`;
  return { where: item.where, text: own ?? item.vertices.at(-1)?.time };
}

export function datesFor(
  all: readonly { where: string; text: string | undefined }[],
  { at, zone, now }: { at: string | undefined; zone: string; now: string },
  doubts: Doubting,
): (text: string | undefined) => ReturnType<DateReader> {
  const written = all.flatMap(({ where, text }) => (text === undefined ? [] : [{ where, text }]));
  const read = dateReader(written, { zone, now }, doubts);
  const typed = at === undefined ? undefined : read(at);
  if (typed?.ok === false) throw new ImportRefusal('--at', at ?? '', typed.remedy);
  if (typed === undefined)
    withoutDate(
      all.flatMap(({ where, text }) => (text === undefined ? [where] : [])),
      now,
      doubts,
    );
  const other: Happened = typed?.ok ? typed.value : { at: now, precision: 'instant' };
  return (text) => (text === undefined ? { ok: true, value: other } : read(text));
}

export function unreadable(problems: readonly Problem[], doubts: Doubting): void {
  const [one] = problems;
  const where = problems.map((problem) => problem.where);
  doubts.ask({
    code: 'unreadable',
    sentence: `${amount(where, ['thing', 'things'])} cannot be read. ${one?.where}: ${one?.sentence}`,
    where,
    choices: [{ answer: 'leave-out', label: 'leave these out and bring in the rest' }],
  });
}
