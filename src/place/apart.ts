/** How far things on the ground lie apart, edge to edge: points, lines and rings, in metres. */
import { polygonContains } from 'd3-polygon';
import { type Point, planeAt } from './plane.ts';
import type { LonLat } from './position.ts';

/** A thing on the ground: one point, a line of at least two, or a ring (open, either way round). */
export type GroundShape = Readonly<{ is: 'point' | 'line' | 'ring'; points: readonly LonLat[] }>;

type Flat = Readonly<{ is: GroundShape['is']; points: readonly Point[] }>;

/** The shortest distance between two things, metres: 0 where they touch, cross, or one lies in the other. */
export function apart(one: GroundShape, other: GroundShape): number {
  const [origin] = one.points;
  if (origin === undefined || other.points.length === 0) return Number.POSITIVE_INFINITY;
  const plane = planeAt(origin);
  const [a, b] = [one, other].map(({ is, points }): Flat => ({ is, points: points.map(plane) }));
  if (a === undefined || b === undefined) return Number.POSITIVE_INFINITY;
  if (holds(a, b) || holds(b, a)) return 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (const [from, to] of sidesOf(a)) {
    for (const [start, end] of sidesOf(b)) {
      nearest = Math.min(nearest, between(from, to, start, end));
      if (nearest === 0) return 0;
    }
  }
  return nearest;
}

/** Whether a ring has the first corner of the other in it: enough, where their edges do not cross. */
function holds({ is, points }: Flat, { points: [corner] }: Flat): boolean {
  return is === 'ring' && corner !== undefined && polygonContains([...points], corner);
}

/** Its sides; a point is a side without length. */
function sidesOf({ is, points }: Flat): (readonly [Point, Point])[] {
  const [first] = points;
  if (first === undefined) return [];
  if (points.length === 1) return [[first, first]];
  const sides = points.slice(1).map((end, position) => [points[position] ?? first, end] as const);
  return is === 'ring' ? [...sides, [points.at(-1) ?? first, first]] : sides;
}

function between(a: Point, b: Point, c: Point, d: Point): number {
  if (cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0) return 0;
  return Math.min(toSide(a, c, d), toSide(b, c, d), toSide(c, a, b), toSide(d, a, b));
}

function cross(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** From a point to the stretch between `a` and `b`. */
function toSide([x, y]: Point, a: Point, b: Point): number {
  const [along, up] = [b[0] - a[0], b[1] - a[1]];
  const length = along ** 2 + up ** 2;
  const share = length === 0 ? 0 : ((x - a[0]) * along + (y - a[1]) * up) / length;
  const held = Math.min(1, Math.max(0, share));
  return Math.hypot(x - a[0] - held * along, y - a[1] - held * up);
}
