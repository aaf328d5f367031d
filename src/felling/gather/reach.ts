// What lies within reach of the stems of a group: near enough that one of them could strike it, or be held by it.
import { isUnresolved, type LonLat, type Resolved, type Unresolved } from '../../place/index.ts';
import type { Locator } from '../../stand/index.ts';
import type { Point } from '../model/inputs.ts';
import { apartInPlane, planeOf } from './plane.ts';

/** Farther than this from every stem of the group nothing is in reach of any of them, metres. */
export const REACH = 70;

export type Reach = Readonly<{
  place: (found: Resolved | Unresolved) => boolean;
  /** A line on the ground or along an area, corner by corner; a single point is one too. */
  line: (corners: readonly LonLat[]) => boolean;
}>;

/** @param stems ids; those without a place reach nothing */
export function reachOf(stems: readonly string[], locator: Locator): Reach {
  const places = stems.flatMap((id) => {
    const found = locator.stem(id);
    return isUnresolved(found) ? [] : [found.at];
  });
  const [origin] = places;
  if (origin === undefined) return { place: () => false, line: () => false };
  const { at } = planeOf(origin);
  const from = places.map(at);
  return {
    place: (found) => !isUnresolved(found) && from.some((stem) => apartInPlane(stem, at(found.at)) <= REACH),
    line: (corners) => {
      const points = corners.map(at);
      return points.some((corner, index) => {
        const next = points[index + 1] ?? corner;
        return from.some((stem) => apartFromSide(stem, corner, next) <= REACH);
      });
    },
  };
}

/** Distance of a point from the stretch between two others. */
function apartFromSide(point: Point, start: Point, end: Point): number {
  const along = { x: end.x - start.x, y: end.y - start.y };
  const square = along.x ** 2 + along.y ** 2;
  const share = square === 0 ? 0 : ((point.x - start.x) * along.x + (point.y - start.y) * along.y) / square;
  const nearest = Math.max(0, Math.min(1, share));
  return apartInPlane(point, { x: start.x + nearest * along.x, y: start.y + nearest * along.y });
}
