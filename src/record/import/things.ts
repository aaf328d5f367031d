// What the things of a file become: one kind of entry each. A thing without a fitting shape is passed over and said.
import type { PositionEntered } from '../../place/index.ts';
import type { Item } from './source.ts';

export const purposes = ['stems', 'stakes', 'notes', 'boundary', 'edge', 'features'] as const;
export type Purpose = (typeof purposes)[number];

/** What an entry is made of: typed text by field, or values in stored shape. */
export type Draft = Readonly<{
  where: string;
  kind: string;
  fields: Readonly<Record<string, unknown>>;
  /** Where a point is, or the corners of a line, when they are known by coordinates. */
  places: readonly PositionEntered[];
}>;

/** One thing with its cells read by role. */
export type Thing = Readonly<{
  item: Item;
  cells: Readonly<Record<string, string | undefined>>;
  /** Positions of its vertices. A row that was measured from a stake has a text instead. */
  places: readonly PositionEntered[];
  placeText: string | undefined;
  species: unknown;
}>;

/** Shapes that a purpose takes. */
export const shapesFor: Readonly<Record<Purpose, ReadonlySet<Item['shape']>>> = {
  stems: new Set(['row', 'point']),
  stakes: new Set(['row', 'point']),
  notes: new Set(['row', 'point']),
  boundary: new Set(['ring', 'line']),
  edge: new Set(['ring', 'line']),
  features: new Set(['row', 'point', 'line', 'ring']),
};

/** @param fixed values that hold wherever the file does not say */
export function draftsOf(
  purpose: Purpose,
  thing: Thing,
  fixed: Readonly<Record<string, string>>,
  newId: () => string,
): Draft[] {
  const { item, places } = thing;
  const draft = (kind: string, fields: Readonly<Record<string, unknown>>): Draft => ({
    where: item.where,
    kind,
    fields: present({ ...fixed, ...present(fields) }),
    places,
  });
  return makers[purpose](thing, draft, { newId, fixed });
}

type Maker = (
  thing: Thing,
  draft: (kind: string, fields: Readonly<Record<string, unknown>>) => Draft,
  more: Readonly<{ newId: () => string; fixed: Readonly<Record<string, string>> }>,
) => Draft[];

const makers: Readonly<Record<Purpose, Maker>> = {
  stems: (thing, draft, { newId }) => {
    const { cells, species, item } = thing;
    const stem = newId();
    const {
      mark,
      dbh,
      height,
      merchantableHeight,
      group,
      block,
      reason,
      purpose,
      decaySigns,
      defects,
      vigor,
      product,
      grade,
    } = cells;
    const marked = draft('stem-marked', {
      stem,
      mark,
      tag: cells.tag ?? cells.label ?? cells.name,
      species,
      dbh,
      height,
      merchantableHeight,
      group,
      block,
      reason,
      purpose,
      decaySigns,
      defects,
      vigor,
      product,
      grade,
      position: placeOf(thing),
    });
    if (cells.note === undefined) return [marked];
    return [
      marked,
      { where: item.where, kind: 'note-written', fields: { stem, text: cells.note }, places: [] },
    ];
  },
  stakes: (thing, draft) => {
    const { cells } = thing;
    return [
      draft('stake-set', {
        label: cells.label ?? cells.tag ?? cells.name,
        what: cells.what ?? cells.note,
        position: placeOf(thing),
      }),
    ];
  },
  notes: (thing, draft) => {
    const { name, label, note } = thing.cells;
    const text = [name ?? label, note].filter((part) => part !== undefined).join(': ');
    return [draft('note-written', { text, position: placeOf(thing) })];
  },
  boundary: ({ cells, places }, draft) => [
    draft('block-laid-out', { name: cells.block ?? cells.name, boundary: openRing(places) }),
  ],
  edge: ({ cells, places }, draft) => [
    draft('opening-measured', {
      method: 'walked-edge',
      group: cells.group,
      edge: openRing(places),
      note: cells.note,
    }),
  ],
  features: (thing, draft, { fixed }) => {
    const { cells, item, places } = thing;
    const { what, width, note } = cells;
    // What has no name is told apart by its number in the file: "stream 3".
    const number = item.where.replace(/^\D+/, '');
    const label = cells.label ?? cells.name ?? fixed.label ?? `${what ?? fixed.what ?? 'feature'} ${number}`;
    const shape =
      item.shape === 'line'
        ? { line: places }
        : item.shape === 'ring'
          ? { edge: openRing(places) }
          : { point: placeOf(thing) };
    return [draft('feature-mapped', { label, what, width, note, ...shape })];
  },
};

function placeOf({ places, placeText }: Thing): unknown {
  return placeText ?? places[0];
}

/** A file repeats the first corner at the end; the log does not. */
function openRing(places: readonly PositionEntered[]): readonly PositionEntered[] {
  const [first] = places;
  const last = places.at(-1);
  const closes = places.length > 3 && JSON.stringify(first) === JSON.stringify(last);
  return closes ? places.slice(0, -1) : places;
}

function present(fields: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined && value !== ''),
  );
}
