/**
 * Strips along water, roads and lines, and trees that stand on a line: how wide, and in, out or doubtful. No law stands
 * here: widths are given by whoever asks.
 */
import { horizontalDistance, type Slope } from '../measure/index.ts';
import { STANDARD_ERRORS_TO_BE_SURE } from './doubt.ts';

/** A width that grows with the slope of the ground beside it: so much up to `above`, then so much more for each percent. */
export type BufferRule = Readonly<{
  /** Metres. */
  base: number;
  /** Metres for each percent of slope beyond `above`; absent for a constant width. */
  perPercent?: number;
  /** Percent; 0 if left out. */
  above?: number;
}>;

/** Width in metres on ground of that slope, measured as the rule measures. @param slopePercent 0 or more */
export function bufferWidth({ base, perPercent = 0, above = 0 }: BufferRule, slopePercent: number): number {
  return base + perPercent * Math.max(0, slopePercent - above);
}

/** A width on the slope as it is on the map, metres. */
export function levelWidth(width: number, slope: Slope): number {
  return horizontalDistance(width, slope);
}

/** A slope in percent, whichever way it was read, uphill or down. */
export function slopePercent({ value, unit }: Slope): number {
  return Math.abs(unit === '%' ? value : 100 * Math.tan((value * Math.PI) / 180));
}

export type InBuffer = 'in' | 'out' | 'doubtful';

/**
 * Whether something lies within a strip.
 * @param metres to the edge that the strip is measured from, level
 * @param width of the strip, level, metres
 * @param standardErrors of both, metres; one that is not known makes everything doubtful
 */
export function inBuffer(
  metres: number,
  width: number,
  standardErrors: readonly (number | undefined)[],
): InBuffer {
  const margin = marginOf(standardErrors);
  if (Math.abs(metres - width) <= margin) return 'doubtful';
  return metres < width ? 'in' : 'out';
}

/** How a stem stands to a line. */
export type LineTree = 'inside' | 'outside' | 'touched' | 'doubtful';

/**
 * How a round stem stands to a line: touched when the line surely goes through it, inside or outside when it surely
 * does not, else doubtful. Sure is two standard errors.
 * @param inside distance of the stem's middle to the line, positive inside, metres
 * @param radius of the stem, metres; undefined when no DBH was taken, and then it is never said to be touched
 * @param standardErrors of the stem's position and of the line, metres
 */
export function lineTree(
  inside: number,
  radius: number | undefined,
  standardErrors: readonly (number | undefined)[],
): LineTree {
  const margin = marginOf(standardErrors);
  const distance = Math.abs(inside);
  if (distance - margin > (radius ?? 0)) return inside > 0 ? 'inside' : 'outside';
  return radius !== undefined && distance + margin <= radius ? 'touched' : 'doubtful';
}

/** Two standard errors of both together; without end where one is not known. */
export function marginOf(standardErrors: readonly (number | undefined)[]): number {
  const known = standardErrors.filter((error) => error !== undefined);
  return known.length < standardErrors.length
    ? Number.POSITIVE_INFINITY
    : STANDARD_ERRORS_TO_BE_SURE * Math.hypot(...known);
}
