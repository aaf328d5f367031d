/**
 * Rings of positions: the edge of an opening, the boundary of a block.
 *
 * d3-polygon does hull and inclusion: it is planar, tiny and loads at once. A spherical library takes a third of a second
 * to load and has nothing to add over a woodlot. Rings are laid into a plane in metres round a point of their own.
 */
import { polygonContains, polygonHull } from 'd3-polygon';
import { type Point, planeAt } from './plane.ts';
import type { LonLat } from './position.ts';

/** The convex hull, open (its first point is not repeated), counterclockwise. Fewer than three distinct points: none. */
export function hull(points: readonly LonLat[]): readonly LonLat[] {
  const [origin] = points;
  if (origin === undefined) return [];
  const plane = planeAt(origin);
  // polygonHull hands back the very arrays it was given.
  const sources = new Map<Point, LonLat>(points.map((at) => [plane(at), at]));
  const edge = polygonHull([...sources.keys()]) ?? [];
  const corners = edge.flatMap((corner) => sources.get(corner as Point) ?? []);
  return corners.reverse();
}

/**
 * What is wrong with a ring, in sentences; none when it can bound an area. Looks for numbers that are none or out of
 * range, fewer than three distinct points, edges that cross, and a point the ring comes back to.
 */
export function ringProblems(ring: readonly LonLat[]): readonly string[] {
  const wrong = ring.flatMap((at, position) => outOfRange(at, position));
  if (wrong.length > 0) return wrong;
  const corners = distinct(ring);
  const [origin] = corners;
  if (origin === undefined || corners.length < 3) {
    return [`An area needs at least three different points; this has ${corners.length}.`];
  }
  const points = corners.map(planeAt(origin));
  const problems: string[] = [];
  for (let one = 0; one < points.length; one += 1) {
    for (let other = one + 1; other < points.length; other += 1) {
      const problem = meeting(points, one, other);
      if (problem !== undefined) problems.push(problem);
    }
  }
  return problems;
}

/** True when a place lies inside a ring, given closed or open. On the line itself either answer may come. */
export function pointInRing(at: LonLat, ring: readonly LonLat[]): boolean {
  return polygonContains(ring.map(planeAt(at)), [0, 0]);
}

/** How far a place lies from a ring's line, metres; 0 inside it. Infinity for an empty ring. */
export function distanceToRing(at: LonLat, ring: readonly LonLat[]): number {
  return pointInRing(at, ring) ? 0 : distanceToEdge(at, ring);
}

/** How far a place lies from a ring's line, inside or outside, metres. Infinity for an empty ring. */
export function distanceToEdge(at: LonLat, ring: readonly LonLat[]): number {
  const points = ring.map(planeAt(at));
  let nearest = Number.POSITIVE_INFINITY;
  for (const [position, point] of points.entries()) {
    const next = points[(position + 1) % points.length] ?? point;
    nearest = Math.min(nearest, distanceFromOrigin(point, next));
  }
  return nearest;
}

/** True when a place lies outside a ring and more than `metres` from it. */
export function farFrom(at: LonLat, ring: readonly LonLat[], metres: number): boolean {
  return distanceToRing(at, ring) > metres;
}

function outOfRange({ lon, lat }: LonLat, position: number): string[] {
  if (Math.abs(lat) <= 90 && Math.abs(lon) <= 180) return [];
  return [`Point ${position + 1} (latitude ${lat}, longitude ${lon}) is no place on earth.`];
}

/** Without the points that repeat the one before them, and without a closing point. */
function distinct(ring: readonly LonLat[]): readonly LonLat[] {
  const open = ring.filter((at, position) => position === 0 || !same(at, ring[position - 1]));
  return open.length > 1 && same(open[0], open.at(-1)) ? open.slice(0, -1) : open;
}

function same(one: LonLat | undefined, other: LonLat | undefined): boolean {
  return one !== undefined && other !== undefined && one.lon === other.lon && one.lat === other.lat;
}

/** How edge `one` (from corner `one` to the next) meets edge `other`, when it should not. */
function meeting(points: readonly Point[], one: number, other: number): string | undefined {
  const count = points.length;
  const [a, b, c, d] = [points[one], points[(one + 1) % count], points[other], points[(other + 1) % count]];
  if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
  const adjacent = other === one + 1 || (one === 0 && other === count - 1);
  if (adjacent) {
    const [shared, before, after] = other === one + 1 ? [b, a, d] : [a, b, c];
    const doublesBack = turn(before, shared, after) === 0 && isBetween(before, after, shared) === false;
    return doublesBack
      ? `The line turns back on itself at point ${(other === one + 1 ? other : one) + 1}.`
      : undefined;
  }
  if (Math.max(a[0], b[0]) < Math.min(c[0], d[0]) || Math.max(c[0], d[0]) < Math.min(a[0], b[0]))
    return undefined;
  if (!segmentsMeet(a, b, c, d)) return undefined;
  return `The line crosses or touches itself: between points ${one + 1} and ${((one + 1) % count) + 1}, and between ${other + 1} and ${((other + 1) % count) + 1}.`;
}

function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  const [abc, abd, cda, cdb] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)];
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (
    (abc === 0 && isBetween(a, b, c)) ||
    (abd === 0 && isBetween(a, b, d)) ||
    (cda === 0 && isBetween(c, d, a)) ||
    (cdb === 0 && isBetween(c, d, b))
  );
}

/** 1 when a, b, c turn left, -1 right, 0 straight on to within a hundredth of a millimetre over the longer side. */
function turn(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  const scale = Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), Math.hypot(c[0] - a[0], c[1] - a[1]));
  if (Math.abs(cross) <= 1e-5 * scale) return 0;
  return cross > 0 ? 1 : -1;
}

/** For a point on the line through a and b: whether it lies on the stretch between them, ends included. */
function isBetween(a: Point, b: Point, point: Point): boolean {
  const along = (point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1]);
  const length = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;
  return along >= 0 && along <= length;
}

function distanceFromOrigin(a: Point, b: Point): number {
  const length = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;
  const along = length === 0 ? 0 : -(a[0] * (b[0] - a[0]) + a[1] * (b[1] - a[1])) / length;
  const share = Math.min(1, Math.max(0, along));
  return Math.hypot(a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]));
}
