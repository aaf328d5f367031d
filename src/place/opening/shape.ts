/** What a ring is like: how long, how wide, which way it lies, how round it is; and how well its area is known. */
import { polygonArea } from 'd3-polygon';
import { planeAt } from '../plane.ts';
import type { LonLat } from '../position.ts';

export type RingForm = Readonly<{
  /** Between the two corners that are farthest apart, metres. */
  length: number;
  /** The extent at right angles to that, metres. */
  width: number;
  /** True azimuth of the longest axis, 0 to below 180 degrees. */
  orientation: number;
  perimeter: number;
  /** 4π × area / perimeter²: 1 for a circle, 0.785 for a square, near 0 for a strip. */
  roundness: number;
}>;

/** The form of a ring with at least three different corners; undefined for fewer. */
export function ringForm(ring: readonly LonLat[]): RingForm | undefined {
  const [origin] = ring;
  if (origin === undefined || ring.length < 3) return undefined;
  const points = ring.map(planeAt(origin));
  let longest = { length: 0, x: 0, y: 1 };
  for (const [position, one] of points.entries()) {
    for (const other of points.slice(position + 1)) {
      const [x, y] = [other[0] - one[0], other[1] - one[1]];
      const length = Math.hypot(x, y);
      if (length > longest.length) longest = { length, x: x / length, y: y / length };
    }
  }
  if (longest.length === 0) return undefined;
  const across = points.map(([x, y]) => x * longest.y - y * longest.x);
  const perimeter = points.reduce((sum, [x, y], position) => {
    const next = points[(position + 1) % points.length] ?? [x, y];
    return sum + Math.hypot(next[0] - x, next[1] - y);
  }, 0);
  return {
    length: longest.length,
    width: Math.max(...across) - Math.min(...across),
    orientation: ((Math.atan2(longest.x, longest.y) * 180) / Math.PI + 360) % 180,
    perimeter,
    roundness: (4 * Math.PI * Math.abs(polygonArea(points))) / perimeter ** 2,
  };
}

/**
 * Standard error of a ring's area in m², from that of each corner in metres, taken along each axis: the shoelace formula
 * ½ Σ xᵢ (yᵢ₊₁ − yᵢ₋₁) differentiated, so ½ √Σ (sᵢ × distance between the corner's neighbours)². Errors of the corners
 * count as independent of each other; what moves all of them the same way changes no area.
 */
export function areaStandardError(ring: readonly LonLat[], errors: readonly number[]): number {
  const [origin] = ring;
  if (origin === undefined) return 0;
  const points = ring.map(planeAt(origin));
  const squares = points.map((point, position) => {
    const before = points.at(position - 1) ?? point;
    const after = points[(position + 1) % points.length] ?? point;
    const reach = Math.hypot(after[0] - before[0], after[1] - before[1]);
    return ((errors[position] ?? 0) * reach) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0)) / 2;
}
