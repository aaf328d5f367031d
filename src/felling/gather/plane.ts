// The local plane of a group: places of the stand in metres east and north of one point.
import { isUnresolved, type LonLat, planeAt, type Resolved, type Unresolved } from '../../place/index.ts';
import type { Point } from '../model/inputs.ts';

/** Somebody or something that could not be put into the plane, and why. */
export type Unplaced = Readonly<{ label: string; why: string }>;

export type Plane = Readonly<{
  origin: LonLat;
  at: (place: LonLat) => Point;
  /** The place of something, or undefined where it cannot be told; then it is noted among the unplaced. */
  of: (label: string, place: Resolved | Unresolved) => Point | undefined;
  unplaced: readonly Unplaced[];
}>;

export function planeOf(origin: LonLat): Plane {
  const project = planeAt(origin);
  const unplaced: Unplaced[] = [];
  const at = (place: LonLat): Point => {
    const [x, y] = project(place);
    return { x, y };
  };
  return {
    origin,
    at,
    of: (label, place) => {
      if (!isUnresolved(place)) return at(place.at);
      unplaced.push({ label, why: place.why });
      return undefined;
    },
    unplaced,
  };
}

export function apartInPlane(one: Point, other: Point): number {
  return Math.hypot(one.x - other.x, one.y - other.y);
}
