// Damage along the lays: leave trees near a felled stem's line against the others, and damage for each stem felled.
import { type LengthUnit, lengthIn, type NotEnough, notEnough } from '../../measure/index.ts';
import { apart, isUnresolved } from '../../place/index.ts';
import { stemLabel } from '../labels.ts';
import { layLine } from '../lay-line.ts';
import type { Damage, Stand, Stem } from '../state.ts';
import { locate } from '../where.ts';
import { entriesOf, type TracedFigure } from './traced.ts';

export type LaysAsked = Readonly<{ value: number; unit: LengthUnit }>;

/** Within this distance of its line a falling crown and a rolling butt reach. Common practice, no source. */
export const nearLays: LaysAsked = { value: 20, unit: 'ft' };

type Given<Row> = Readonly<{
  /** All stems that are asked about, and those that were to stay. */
  stems: readonly Stem[];
  leave: readonly Stem[];
  damages: ReadonlyMap<string, readonly Damage[]>;
  within: LaysAsked;
  rowOf: (those: readonly Stem[]) => Row;
}>;

type AlongLays<Row> = Readonly<{
  within: LaysAsked;
  lays: number;
  unplaced: readonly string[];
  near: Row;
  others: Row;
  without: number;
  perStem: TracedFigure | NotEnough;
}>;

/** The distance is that from the tree's position to the nearest point of a lay, level; compared unrounded. */
export function alongLays<Row>(
  stand: Stand,
  { stems, leave, damages, within, rowOf }: Given<Row>,
): AlongLays<Row> | NotEnough {
  const felled = stems.filter(({ felling }) => felling !== undefined);
  if (felled.length === 0) return notEnough('no stem was felled.');
  const locator = locate(stand);
  const found = felled.map((stem) => ({ stem, line: layLine(stem, locator) }));
  const lines = found.flatMap(({ line }) => (isUnresolved(line) ? [] : [line.points]));
  if (lines.length === 0) return notEnough('no felled stem has a measured lay, a length and a place.');
  const most = lengthIn(within.value, within.unit, 'm');
  const placed = leave.flatMap((stem) => {
    const at = locator.stem(stem.id);
    if (isUnresolved(at)) return [];
    const point = { is: 'point', points: [at.at] } as const;
    return [{ stem, near: lines.some((points) => apart({ is: 'line', points }, point) <= most) }];
  });
  const by = (near: boolean) => placed.filter((tree) => tree.near === near).map(({ stem }) => stem);
  return {
    within,
    lays: lines.length,
    unplaced: found.flatMap(({ stem, line }) => (isUnresolved(line) ? [stemLabel(stem)] : [])),
    near: rowOf(by(true)),
    others: rowOf(by(false)),
    without: leave.length - placed.length,
    perStem: perStem(felled, leave, damages),
  };
}

function perStem(
  felled: readonly Stem[],
  leave: readonly Stem[],
  damages: ReadonlyMap<string, readonly Damage[]>,
): TracedFigure {
  const ids = new Set(felled.map(({ id }) => id));
  const done = leave
    .flatMap(({ id }) => damages.get(id) ?? [])
    .filter(({ body }) => body.byStem !== undefined && ids.has(body.byStem));
  const fellings = felled.flatMap(({ felling }) => (felling === undefined ? [] : [felling.entry]));
  return {
    value: done.length / felled.length,
    unit: 'damages per felled stem',
    method: `${done.length} recorded damages to leave trees by ${felled.length} felled stems`,
    source: 'definition',
    restsOn: [...new Set([...fellings, ...entriesOf(done)()])],
  };
}
