/**
 * Which side of a boundary many stems are nearest to. The boundary is laid into a plane once, and its sides are boxed in
 * runs: most boxes are too far away to be looked into. Sides that follow each other lie together, so runs need no sorting
 * and no index of a library, which the field page would have to carry.
 */
import { distanceAndAzimuth } from './geodesic.ts';
import type { Point } from './plane.ts';
import type { LonLat } from './position.ts';

export type NearSide = Readonly<{
  /** The side from corner `side` to the next, counted from 0. */
  side: number;
  /** Distance to it in metres, positive inside the ring. */
  inside: number;
}>;

type Side = Readonly<{ side: number; from: Point; to: Point; counts: boolean }>;
type Run = Readonly<{ sides: readonly Side[]; west: number; south: number; east: number; north: number }>;

/** One degree, to take the scale of the plane from. */
const SPAN = 0.01;

/**
 * The nearest side of a ring, for one place after the other. The plane keeps the scale of its middle: a distance over
 * a block of some kilometres is right to about one part in two thousand, where the margin of a line is metres.
 * @param counts which sides are looked at; all if left out
 */
export function nearSideOf(
  ring: readonly LonLat[],
  counts: (side: number) => boolean = () => true,
): (at: LonLat) => NearSide | undefined {
  const [origin] = ring;
  if (origin === undefined || ring.length < 3) return () => undefined;
  const north = distanceAndAzimuth(origin, { ...origin, lat: origin.lat + SPAN }).metres / SPAN;
  const east = distanceAndAzimuth(origin, { ...origin, lon: origin.lon + SPAN }).metres / SPAN;
  const flat = ({ lon, lat }: LonLat): Point => {
    const eastward = lon - origin.lon;
    // Across the antimeridian it is the short way that counts.
    const around = Math.abs(eastward) > 180 ? eastward - Math.sign(eastward) * 360 : eastward;
    return [around * east, (lat - origin.lat) * north];
  };
  const corners = ring.map(flat);
  const runs = runsOf(
    corners.map((from, side) => ({
      side,
      from,
      to: corners[(side + 1) % corners.length] ?? from,
      counts: counts(side),
    })),
  );
  return (at) => {
    const place = flat(at);
    const nearest = nearestIn(runs, place);
    if (nearest === undefined) return undefined;
    const metres = Math.sqrt(nearest.square);
    return { side: nearest.side, inside: isInside(runs, place) ? metres : -metres };
  };
}

/** As many runs as there are sides in each: a place looks at all boxes and into a few. */
function runsOf(sides: readonly Side[]): Run[] {
  const length = Math.ceil(Math.sqrt(sides.length));
  const runs: Run[] = [];
  for (let start = 0; start < sides.length; start += length) {
    const run = sides.slice(start, start + length);
    const [x, y] = [0, 1].map((axis) => run.flatMap(({ from, to }) => [from[axis] ?? 0, to[axis] ?? 0]));
    if (x === undefined || y === undefined) continue;
    const [west, south] = [Math.min(...x), Math.min(...y)];
    runs.push({ sides: run, west, south, east: Math.max(...x), north: Math.max(...y) });
  }
  return runs;
}

/** The nearest box first, so that most others need not be opened; of two sides as near, the first of the ring. */
function nearestIn(runs: readonly Run[], place: Point): { side: number; square: number } | undefined {
  let first: Run | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const run of runs) {
    const square = squareToBox(place, run);
    if (square >= least) continue;
    first = run;
    least = square;
  }
  let side = -1;
  let nearest = Number.POSITIVE_INFINITY;
  const open = (run: Run): void => {
    for (const one of run.sides) {
      if (!one.counts) continue;
      const square = squareToSide(place, one.from, one.to);
      if (square > nearest || (square === nearest && one.side > side)) continue;
      nearest = square;
      side = one.side;
    }
  };
  if (first !== undefined) open(first);
  for (const run of runs) if (run !== first && squareToBox(place, run) <= nearest) open(run);
  return side < 0 ? undefined : { side, square: nearest };
}

/** Whether a line from a place eastward crosses the ring an odd number of times. */
function isInside(runs: readonly Run[], [x, y]: Point): boolean {
  let inside = false;
  for (const { sides, south, north, east } of runs) {
    if (y < south || y > north || x > east) continue;
    for (const { from, to } of sides) {
      if (from[1] > y === to[1] > y) continue;
      if (x < from[0] + ((y - from[1]) / (to[1] - from[1])) * (to[0] - from[0])) inside = !inside;
    }
  }
  return inside;
}

function squareToBox([x, y]: Point, { west, south, east, north }: Run): number {
  const offX = Math.max(west - x, 0, x - east);
  const offY = Math.max(south - y, 0, y - north);
  return offX * offX + offY * offY;
}

function squareToSide([x, y]: Point, a: Point, b: Point): number {
  const [along, up] = [b[0] - a[0], b[1] - a[1]];
  const length = along * along + up * up;
  const share = length === 0 ? 0 : ((x - a[0]) * along + (y - a[1]) * up) / length;
  const held = Math.max(0, Math.min(share, 1));
  const [offX, offY] = [x - a[0] - held * along, y - a[1] - held * up];
  return offX * offX + offY * offY;
}
