/** Slopes, and the horizontal distance of one that was taped along the ground. */

/** A grade in percent, or an angle in degrees (below 90). The sign does not matter here. */
export type Slope = Readonly<{ value: number; unit: '%' | 'deg' }>;

/** Cosine of the angle of a slope: what is left of a length along the ground when it is seen from above. */
export function slopeCosine({ value, unit }: Slope): number {
  return unit === '%' ? 1 / Math.hypot(1, value / 100) : Math.cos((value * Math.PI) / 180);
}

/**
 * Horizontal distance of a taped one: d / √(1 + (g/100)²) for a grade of g percent, d · cos α for an angle α.
 * Source: trigonometry. The sign of the slope does not matter.
 *
 * @param distance taped along the ground, any unit; the result is in the same
 */
export function horizontalDistance(distance: number, slope: Slope): number {
  return distance * slopeCosine(slope);
}
