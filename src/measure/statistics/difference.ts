/** How far two means lie apart, with the t interval of the difference: of the same things twice, or of two samples. */
import { isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { studentQuantile } from './distributions.ts';
import { meanEstimate } from './mean.ts';

export type DifferenceEstimate = Readonly<{
  /** Later minus earlier. */
  difference: number;
  standardError: number;
  degrees: number;
  /** difference ± t · standard error */
  low: number;
  high: number;
  level: number;
}>;

/**
 * The mean of differences within pairs, such as plots that were counted twice. Source: Student 1908.
 *
 * @param pairs earlier and later value of the same thing; two pairs at least
 * @param level confidence level, 0.95 by default
 * @throws RangeError for a value that is no number, or a level outside 0 to 1
 */
export function pairedDifference(
  pairs: readonly (readonly [earlier: number, later: number])[],
  level = 0.95,
): DifferenceEstimate | NotEnough {
  const mean = meanEstimate(
    pairs.map(([earlier, later]) => later - earlier),
    level,
  );
  if (isNotEnough(mean)) return notEnough('a difference needs two plots at least that were counted twice.');
  const { mean: difference, standardError, degrees, low, high } = mean;
  return { difference, standardError, degrees, low, high, level };
}

/**
 * The difference of the means of two independent samples that may spread differently.
 * Source: Welch 1947, Biometrika 34:28–35, with his degrees of freedom. Parameters and errors as above.
 */
export function welchDifference(
  earlier: readonly number[],
  later: readonly number[],
  level = 0.95,
): DifferenceEstimate | NotEnough {
  const [one, other] = [meanEstimate(earlier, level), meanEstimate(later, level)];
  if (isNotEnough(one) || isNotEnough(other))
    return notEnough(
      `a difference needs two values at least on either side; there are ${earlier.length} and ${later.length}.`,
    );
  const difference = other.mean - one.mean;
  const [a, b] = [one.standardError ** 2, other.standardError ** 2];
  const standardError = Math.sqrt(a + b);
  const degrees =
    standardError === 0
      ? one.degrees + other.degrees
      : (a + b) ** 2 / (a ** 2 / one.degrees + b ** 2 / other.degrees);
  const half = standardError === 0 ? 0 : studentQuantile((1 + level) / 2, degrees) * standardError;
  return {
    difference,
    standardError,
    degrees,
    low: difference - half,
    high: difference + half,
    level,
  };
}
