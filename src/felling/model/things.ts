// What a falling stem can harm, one thing after the other: how likely it is reached, and what that counts.
import { cells, seen } from './around.ts';
import type { Assumed } from './assumptions.ts';
import { contact, touch } from './crown.ts';
import { directionChance, type Fall, lengthChance } from './fall.ts';
import { type FilledStem, filledLeaveTree } from './filled.ts';
import { type CrownContact, obstacle } from './hang-up.ts';
import type { GroupInputs, LeaveTree, Line, Sapling } from './inputs.ts';
import { lineReach, reachChance } from './line-reach.ts';
import { expectedShare, patchShare } from './patch-share.ts';
import { boleChance } from './strip.ts';

/** One thing at risk from one fall. */
export type Risk = Readonly<{
  what: 'sapling' | 'patch' | 'leave tree' | 'hazard' | 'broken over' | 'hang-up' | Line['kind'];
  id: string;
  label: string;
  /** Struck by the bole, touched by the crown only, held by it, reached by anything; of a patch: its share that is lost. */
  how: 'bole' | 'crown' | 'holds' | 'reaches' | 'share';
  /** 0 to 1. */
  chance: number;
  /** Expected, in saplings' worth. */
  loss: number;
  /** Most chance that it may have; only where there is such a limit. */
  limit?: number;
}>;

/** A thing as seen from one stem: gives its risks for a fall. */
export type Thing = (fall: Fall) => readonly Risk[];

/** A chance that is not worth an entry. */
const NOTHING = 1e-9;
const NONE: readonly Risk[] = [];

/** Everything around one stem that it can harm. What stands in its way is in hang-up.ts. */
export function thingsAround(
  falling: FilledStem,
  others: readonly FilledStem[],
  inputs: GroupInputs,
  assumed: Assumed,
): readonly Thing[] {
  const from = falling.stem;
  const saplings = (inputs.saplings ?? []).map((sapling) => saplingThing(falling, sapling, assumed));
  const patches = (inputs.patches ?? []).map(({ id, label, ring, value }): Thing => {
    const squares = cells(ring, assumed.patchCell).map((at) =>
      contact(falling, { ...seen(from, at), radius: 0 }),
    );
    const parts = patchShare(squares, { bole: assumed.underBole, crown: assumed.underCrown });
    return (fall) => {
      const share = expectedShare(fall, parts);
      return [{ what: 'patch', id, label, how: 'share', chance: share, loss: value * share }];
    };
  });
  const leaveTrees = (inputs.leaveTrees ?? []).map((tree) => leaveTreeThing(falling, tree, assumed));
  const lines = (inputs.lines ?? []).map(({ id, label, kind, points }): Thing => {
    const { worth, limit, clearance } = lineRule(kind, assumed);
    const local = points.map(({ x, y }) => ({ x: x - from.x, y: y - from.y }));
    const reach = lineReach(falling, local, clearance);
    return (fall) => {
      const chance = reachChance(fall, reach);
      return [{ what: kind, id, label, how: 'reaches', chance, loss: worth * chance, limit }];
    };
  });
  const hazards = (inputs.hazards ?? []).map(({ id, label, dbh = assumed.leaveTreeDbh, ...at }): Thing => {
    const reached = contact(falling, { ...seen(from, at), radius: dbh / 2 });
    return (fall) => {
      const { bole, crownOnly } = touch(fall, reached);
      const chance = bole + crownOnly;
      const limit = assumed.hazardLimit;
      return [{ what: 'hazard', id, label, how: 'reaches', chance, loss: assumed.hazard * chance, limit }];
    };
  });
  const brokenOver = others
    .filter(({ dbh }) => dbh < assumed.brokenOver * falling.dbh)
    .map(({ stem: { id, label, ...at }, halfWidth }): Thing => {
      const disc = { ...seen(from, at), radius: halfWidth };
      return (fall) => [
        { what: 'broken over', id, label, how: 'bole', chance: boleChance(fall, falling, disc), loss: 0 },
      ];
    });
  return [...saplings, ...patches, ...leaveTrees, ...lines, ...hazards, ...brokenOver];
}

/** A sapling as seen from one stem. */
export function saplingThing(
  falling: FilledStem,
  { id, label, radius = 0, value = 1, ...at }: Sapling,
  assumed: Assumed,
): Thing {
  const reached = contact(falling, { ...seen(falling.stem, at), radius });
  return (fall) => {
    const { bole, crownOnly } = touch(fall, reached);
    if (bole + crownOnly < NOTHING) return NONE;
    const named = { what: 'sapling', id, label } as const;
    return [
      { ...named, how: 'bole', chance: bole, loss: value * assumed.underBole * bole },
      { ...named, how: 'crown', chance: crownOnly, loss: value * assumed.underCrown * crownOnly },
    ];
  };
}

/** A leave tree as seen from one stem. */
export function leaveTreeThing(falling: FilledStem, given: LeaveTree, assumed: Assumed): Thing {
  const tree = filledLeaveTree(given, assumed);
  const { id, label, value, halfWidth } = tree;
  const place = seen(falling.stem, tree);
  const broken = tree.dbh < assumed.brokenOver * falling.dbh;
  const { bole, crown } = obstacle(
    falling,
    { ...place, halfWidth, crownRadius: tree.crownRadius },
    crownsMeet(assumed),
  );
  const long = lengthChance(falling, place.distance - halfWidth);
  return (fall) => {
    const near = directionChance(fall, place.bearing - bole, place.bearing + bole) * long;
    const wide = directionChance(fall, place.bearing - crown, place.bearing + crown) * long;
    if (wide < NOTHING) return NONE;
    const scraped = Math.max(0, wide - near);
    const named = { what: 'leave tree', id, label } as const;
    return [
      { ...named, how: 'bole', chance: near, loss: value * near },
      ...(broken
        ? []
        : [
            {
              ...named,
              how: 'crown' as const,
              chance: scraped,
              loss: value * assumed.crownScrape * scraped,
            },
          ]),
    ];
  };
}

/** The assumptions on how standing stems hold, by the names that hang-up.ts uses. */
export function crownsMeet({ boleHolds, crownHolds, crownOverlap, crownCap }: Assumed): CrownContact {
  return { boleHolds, crownHolds, crownOverlap, crownCap };
}

function lineRule(kind: Line['kind'], assumed: Assumed) {
  const rules = {
    structure: [assumed.structure, assumed.structureLimit, 0],
    road: [assumed.road, assumed.roadLimit, 0],
    trail: [assumed.trail, assumed.trailLimit, 0],
    'power line': [assumed.powerLine, assumed.powerLineLimit, assumed.powerLineClearance],
    water: [assumed.water, assumed.waterLimit, 0],
    'property line': [assumed.propertyLine, assumed.propertyLineLimit, 0],
  } as const satisfies Record<Line['kind'], readonly [number, number, number]>;
  const [worth, limit, clearance] = rules[kind];
  return { worth, limit, clearance };
}
