/**
 * Which side of a boundary many stems are nearest to: the boundary is laid into a plane once, so that ten thousand stems
 * against two thousand corners take no index.
 */
import { polygonContains } from 'd3-polygon';
import { distanceAndAzimuth } from './geodesic.ts';
import type { Point } from './plane.ts';
import type { LonLat } from './position.ts';

export type NearSide = Readonly<{
  /** The side from corner `side` to the next, counted from 0. */
  side: number;
  /** Distance to it in metres, positive inside the ring. */
  inside: number;
}>;

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
  const flat = ({ lon, lat }: LonLat): Point => [(lon - origin.lon) * east, (lat - origin.lat) * north];
  const corners = ring.map(flat);
  const sides = corners.flatMap((from, side) => {
    const to = corners[(side + 1) % corners.length] ?? from;
    return counts(side) ? [{ side, from, to }] : [];
  });
  return (at) => {
    const place = flat(at);
    let nearest: { side: number; square: number } | undefined;
    for (const { side, from, to } of sides) {
      const square = squareToSide(place, from, to);
      if (nearest === undefined || square < nearest.square) nearest = { side, square };
    }
    if (nearest === undefined) return undefined;
    const metres = Math.sqrt(nearest.square);
    return { side: nearest.side, inside: polygonContains(corners, place) ? metres : -metres };
  };
}

function squareToSide([x, y]: Point, a: Point, b: Point): number {
  const [along, up] = [b[0] - a[0], b[1] - a[1]];
  const length = along * along + up * up;
  const share = length === 0 ? 0 : ((x - a[0]) * along + (y - a[1]) * up) / length;
  const held = Math.max(0, Math.min(share, 1));
  const [offX, offY] = [x - a[0] - held * along, y - a[1] - held * up];
  return offX * offX + offY * offY;
}
