// Directions averaged. Pure.

/**
 * The mean of directions, by the sum of their unit vectors, so that 359 and 1 give 0 (Mardia and Jupp, Directional
 * Statistics, 2000, section 2.2). Degrees, 0 to below 360.
 */
export function meanDirection(degrees: readonly number[]): number {
  const radians = degrees.map((one) => (one * Math.PI) / 180);
  const north = radians.reduce((sum, one) => sum + Math.cos(one), 0);
  const east = radians.reduce((sum, one) => sum + Math.sin(one), 0);
  return ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360;
}
