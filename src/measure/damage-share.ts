/**
 * How many of the trees that were to stay were hurt: by number and by basal area, and which wounds are at least as large
 * as a limit.
 *
 * The limit is 100 in² (645.16 cm²) by default: wounds with exposed sapwood of that size or more are likely to develop
 * decay. Source: Good Forestry in the Granite State, 2010, chapter 5.4. "Or more": a wound of 10 by 10 in counts.
 */
import { basalArea } from './basal-area.ts';
import { lacking, type NotEnough, notEnough } from './figure.ts';
import { exactInterval, type ShareInterval } from './statistics/proportion.ts';
import type { Diameter } from './stems/tally.ts';
import { type AreaUnit, areaIn } from './units.ts';

export type WoundArea = Readonly<{ value: number; unit: AreaUnit }>;

/** A tree that was to stay. */
export type LeaveTree = Readonly<{
  dbh?: Diameter;
  /** The group it stands in or at; absent for a tree of the ground between. */
  group?: string;
  /** Every damage that was noted, with the area of the wound where that was measured; empty for an unhurt tree. */
  damages: readonly Readonly<{ area?: WoundArea }>[];
}>;

export type DamageShare = Readonly<{
  trees: number;
  damaged: number;
  /** Damaged trees of all, by number, with its exact interval as of a sample; what is missing when there are none. */
  byNumber: ShareInterval | NotEnough;
  /** The share of the trees' basal area that damaged trees have, 0 to 1. */
  byBasalArea: number | NotEnough;
  /** Damages by their wound: at least the limit, under it, and without a measured area. */
  wounds: Readonly<{ atLeast: number; under: number; unmeasured: number }>;
  /** Trees with a wound of at least the limit; those of unmeasured wounds may be more. */
  treesAtLeast: number;
  limit: WoundArea;
  source: string;
}>;

export const woundLimit: WoundArea = { value: 100, unit: 'in2' };

const source = 'limit of 100 in²: Good Forestry in the Granite State, 2010, ch. 5.4; shares: definition';

/**
 * The share of leave trees that were damaged.
 *
 * @param limit from which size on a wound counts as large, at least 0; compared unrounded
 * @throws RangeError for a wound, limit or DBH that is no number or below 0
 */
export function damageShare(trees: readonly LeaveTree[], limit: WoundArea = woundLimit): DamageShare {
  squareCentimetres('limit', limit);
  const damaged = trees.filter(({ damages }) => damages.length > 0);
  const isLarge = ({ area }: LeaveTree['damages'][number]): boolean =>
    area !== undefined && woundMargin(area, limit).atLeast;
  const all = trees.flatMap(({ damages }) => damages);
  const unmeasured = all.filter(({ area }) => area === undefined).length;
  const atLeast = all.filter(isLarge).length;
  return {
    trees: trees.length,
    damaged: damaged.length,
    byNumber:
      trees.length === 0
        ? notEnough('no leave tree is recorded.')
        : exactInterval(damaged.length, trees.length),
    byBasalArea: basalAreaShare(trees, damaged),
    wounds: { atLeast, under: all.length - unmeasured - atLeast, unmeasured },
    treesAtLeast: trees.filter(({ damages }) => damages.some(isLarge)).length,
    limit,
    source: limit === woundLimit ? source : 'limit: as given; shares: definition',
  };
}

/**
 * How much a wound is over the limit, in the unit of the limit; below 0 it is under it. `atLeast` compares what was
 * measured, unrounded: at the limit the margin is 0 and the wound counts as large.
 *
 * @throws RangeError for a wound or limit that is no number or below 0
 */
export function woundMargin(
  wound: WoundArea,
  limit: WoundArea = woundLimit,
): Readonly<{ margin: number; atLeast: boolean }> {
  const over = squareCentimetres('wound', wound) - squareCentimetres('limit', limit);
  return { margin: areaIn(over, 'cm2', limit.unit), atLeast: over >= 0 };
}

/** The share of all leave trees, and that of each group by its name; a tree without a group counts in all only. */
export function damageByGroup(
  trees: readonly LeaveTree[],
  limit: WoundArea = woundLimit,
): Readonly<{ all: DamageShare; groups: ReadonlyMap<string, DamageShare> }> {
  const groups = new Map<string, LeaveTree[]>();
  for (const tree of trees) {
    if (tree.group === undefined) continue;
    const members = groups.get(tree.group) ?? [];
    members.push(tree);
    groups.set(tree.group, members);
  }
  return {
    all: damageShare(trees, limit),
    groups: new Map([...groups].map(([name, members]) => [name, damageShare(members, limit)])),
  };
}

function basalAreaShare(trees: readonly LeaveTree[], damaged: readonly LeaveTree[]): number | NotEnough {
  const without = trees.filter(({ dbh }) => dbh === undefined).length;
  if (without > 0) return notEnough(`${lacking(without, trees.length, 'leave tree', 'DBH')}.`);
  const whole = squareMetres(trees);
  return whole === 0
    ? notEnough('no leave tree with a basal area is recorded.')
    : squareMetres(damaged) / whole;
}

function squareMetres(trees: readonly LeaveTree[]): number {
  return trees.reduce(
    (sum, { dbh }) => sum + (dbh ? basalArea(atLeast0('dbh', dbh.value), dbh.unit, 'm2') : 0),
    0,
  );
}

function squareCentimetres(name: string, { value, unit }: WoundArea): number {
  return areaIn(atLeast0(name, value), unit, 'cm2');
}

function atLeast0(name: string, value: number): number {
  if (Number.isFinite(value) && value >= 0) return value;
  throw new RangeError(`${name}: ${value} cannot be; give a number of at least 0.`);
}
