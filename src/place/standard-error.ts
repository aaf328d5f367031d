/** How well a position is known: the one place where defaults for it stand. Horizontal standard errors in metres. */

/**
 * What a hand compass and a tape are taken to be good for. Common practice, no source: woodlot traverses by hand
 * compass and tape are commonly accepted when they close to between 1/80 and 1/300 (textbooks, from memory), which
 * single sights across rough ground, not adjusted, do not reach.
 */
export const COMPASS_AND_TAPE = {
  /** Standard error of one compass reading, degrees. */
  azimuthDegrees: 2,
  /** Standard error of a taped distance as a share of it. */
  distanceShare: 0.01,
  /** What cannot be told apart on a trunk or a stake, metres. */
  pointMetres: 0.15,
} as const;

/** Standard error at the end of an offset of `metres`, from that at its start; unknown stays unknown. */
export function offsetError(start: number | undefined, metres: number): number | undefined {
  if (start === undefined) return undefined;
  const across = metres * ((COMPASS_AND_TAPE.azimuthDegrees * Math.PI) / 180);
  const along = metres * COMPASS_AND_TAPE.distanceShare;
  return Math.hypot(start, across, along, COMPASS_AND_TAPE.pointMetres);
}
