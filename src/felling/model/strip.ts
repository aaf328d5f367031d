// What the bole of a falling stem reaches: a strip along the lay, as wide as the bole.
import { type Body, DEGREES, directionChance, type Fall, lengthChance } from './fall.ts';

/** A disc on the ground as seen from the stump; radius 0: a point. Metres, and degrees from true north. */
export type Disc = Readonly<{ distance: number; bearing: number; radius: number }>;

/** How far to either side the direction may be off for a strip of this half width still to touch the disc; degrees, at most 90. */
export function halfAngle(
  halfWidth: number,
  { distance, radius }: Pick<Disc, 'distance' | 'radius'>,
): number {
  return Math.asin(Math.min(1, (halfWidth + radius) / distance)) * DEGREES;
}

/** The chance that the bole touches the disc. */
export function boleChance(fall: Fall, body: Body, disc: Disc): number {
  const half = halfAngle(body.halfWidth, disc);
  return (
    directionChance(fall, disc.bearing - half, disc.bearing + half) *
    lengthChance(body, disc.distance - disc.radius)
  );
}
