// Where a falling stem can hang up: the circle round its stump is cut at the edges of the sectors in which standing stems
// meet it, and within each part the length is cut where they come into reach. So every part has one set of stems in the way.
import type { Segment } from '../order/problem.ts';
import { azimuth, type Body, directionChance, type Fall, lengthChance } from './fall.ts';

import { halfAngle } from './strip.ts';

/** Something standing that can hold a falling stem, as seen from the falling stem's stump. Metres, degrees, chances. */
export type Obstacle = Readonly<{
  /** Index in the group; left out: it always stands (a leave tree). */
  stem?: number;
  distance: number;
  bearing: number;
  halfWidth: number;
  /** Half angle within which the boles meet, and within which at least the crowns do. */
  bole: number;
  crown: number;
  /** Chances of holding. */
  boleHolds: number;
  crownHolds: number;
}>;

/** How crowns count as meeting. */
export type CrownContact = Readonly<{
  boleHolds: number;
  crownHolds: number;
  crownOverlap: number;
  crownCap: number;
}>;

/** The half angles within which a falling stem meets a standing one. */
export function obstacle(
  falling: Pick<Body, 'halfWidth' | 'crownRadius'>,
  standing: Readonly<{
    stem?: number;
    distance: number;
    bearing: number;
    halfWidth: number;
    crownRadius: number;
  }>,
  { boleHolds, crownHolds, crownOverlap, crownCap }: CrownContact,
): Obstacle {
  const { crownRadius, ...rest } = standing;
  const { distance, halfWidth } = rest;
  const bole = halfAngle(falling.halfWidth, { distance, radius: halfWidth });
  const meeting = halfAngle(0, { distance, radius: crownOverlap * (falling.crownRadius + crownRadius) });
  return { ...rest, bole, crown: Math.max(bole, Math.min(crownCap, meeting)), boleHolds, crownHolds };
}

/** The parts of the circle with what can hold there; for every aim of one stem the same. */
export type HangUpMap = Readonly<{
  cells: readonly Readonly<{ from: number; to: number; parts: readonly Part[] }>[];
  kinds: readonly Kind[];
}>;
/** Within one cell: from where on the length reaches this kind of set, as a share of falls. */
type Part = Readonly<{ kind: number; share: number; always: number }>;
type Kind = Segment['holds'];

/** Cuts the circle for one falling stem. */
export function hangUpMap(body: Body, obstacles: readonly Obstacle[]): HangUpMap {
  const edges = new Set<number>([0]);
  for (const { bearing, bole, crown } of obstacles)
    for (const angle of [bole, crown]) {
      edges.add(azimuth(bearing - angle));
      edges.add(azimuth(bearing + angle));
    }
  const sorted = [...edges].sort((a, b) => a - b);
  const byReach = obstacles
    .map((one) => ({ ...one, reach: lengthChance(body, one.distance - one.halfWidth) }))
    .filter(({ reach }) => reach > 0)
    .sort((a, b) => b.reach - a.reach);
  const kinds = new Map<string, number>();
  const sets: Kind[] = [];
  const cells = sorted.flatMap((from, index) => {
    const to = sorted[index + 1] ?? 360;
    const parts: Part[] = [];
    const holds: { stem: number; survival: number }[] = [];
    let always = 1;
    const met = metIn(byReach, (from + to) / 2);
    // Which stems of the group are in the way; the same from one leave tree to the next.
    let kind: number | undefined;
    met.forEach(({ stem, reach, holds: chance }, position) => {
      if (stem === undefined) always *= 1 - chance;
      else {
        holds.push({ stem, survival: 1 - chance });
        kind = undefined;
      }
      const share = reach - (met[position + 1]?.reach ?? 0);
      if (share <= 0) return;
      kind ??= kindOf(holds, kinds, sets);
      parts.push({ kind, share, always });
    });
    return parts.length === 0 ? [] : [{ from, to, parts }];
  });
  return { cells, kinds: sets };
}

/** The number of a set of stems with their chances, a new one where it was not met before. */
function kindOf(holds: Kind, kinds: Map<string, number>, sets: Kind[]): number {
  const inOrder = holds.toSorted((a, b) => a.stem - b.stem);
  const key = inOrder.map((hold) => `${hold.stem}:${hold.survival}`).join(' ');
  const kind = kinds.get(key) ?? sets.push(inOrder) - 1;
  kinds.set(key, kind);
  return kind;
}

type Met = Readonly<{ stem: number | undefined; reach: number; holds: number }>;

/** What can hold in one direction, what is in reach most often first. A plain loop: a plan asks some million times. */
function metIn(byReach: readonly (Obstacle & { reach: number })[], direction: number): Met[] {
  const met: Met[] = [];
  for (const one of byReach) {
    const off = Math.abs(((direction - one.bearing + 540) % 360) - 180);
    if (off > one.crown) continue;
    const holds = off <= one.bole ? one.boleHolds : one.crownHolds;
    if (holds !== 0) met.push({ stem: one.stem, reach: one.reach, holds });
  }
  return met;
}

/**
 * The segments for one aim: those with the same stems in the way are one, with `always` as their weighted mean, which changes
 * no chance because the chance is linear in it. Parts with a weight under 1e-12 are left out.
 */
export function segments(fall: Fall, { cells, kinds }: HangUpMap): readonly Segment[] {
  const weights = new Float64Array(kinds.length);
  const past = new Float64Array(kinds.length);
  for (const { from, to, parts } of cells) {
    const direction = directionChance(fall, from, to);
    if (direction === 0) continue;
    for (const { kind, share, always } of parts) {
      weights[kind] = (weights[kind] ?? 0) + direction * share;
      past[kind] = (past[kind] ?? 0) + direction * share * always;
    }
  }
  return kinds.flatMap((holds, kind) => {
    const weight = weights[kind] ?? 0;
    return weight < 1e-12 ? [] : [{ weight, always: (past[kind] ?? 0) / weight, holds }];
  });
}

/** The chance of a hang-up while the stems for which `standing` is true stand. */
export function hangUpChance(of: readonly Segment[], standing: (stem: number) => boolean): number {
  return of.reduce((sum, { weight, always, holds }) => {
    const past = holds.reduce(
      (product, hold) => (standing(hold.stem) ? product * hold.survival : product),
      always,
    );
    return sum + weight * (1 - past);
  }, 0);
}
