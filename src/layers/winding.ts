// Which way round a ring goes, in the plane of its own coordinates.
import { polygonArea } from 'd3-polygon';
import type { Position } from './collection.ts';

/**
 * True when a ring, open or closed, goes round counterclockwise with the first coordinate to the right and the
 * second up. A ring that encloses nothing goes neither way round.
 */
export function isCounterclockwise(ring: readonly Position[]): boolean {
  const [first] = ring;
  if (first === undefined) return false;
  // From its first corner, since coordinates of millions would eat up the digits of a small area.
  // d3 thinks of screens, where the second coordinate runs down: its areas are negative for what we ask for.
  return polygonArea(ring.map(([x, y]) => [x - first[0], y - first[1]])) < 0;
}
