/** Mean, standard deviation, standard error, and the t interval of a mean. */
import { type NotEnough, notEnough } from '../figure.ts';
import { studentQuantile } from './distributions.ts';
import { checkLevel } from './level.ts';

export type MeanEstimate = Readonly<{
  n: number;
  mean: number;
  /** Of the sample, with n − 1. */
  standardDeviation: number;
  standardError: number;
  degrees: number;
  /** mean ± t · standard error */
  low: number;
  high: number;
  level: number;
}>;

/**
 * The mean of independent values with its t interval. Source: Student 1908; definitions.
 *
 * @param values finite numbers; two at least, because one value says nothing of how far values spread
 * @param level confidence level, 0.95 by default
 * @throws RangeError for a value that is no number, or a level outside 0 to 1
 */
export function meanEstimate(values: readonly number[], level = 0.95): MeanEstimate | NotEnough {
  checkLevel(level);
  const wrong = values.find((value) => !Number.isFinite(value));
  if (wrong !== undefined) throw new RangeError(`values: ${wrong} is no value; give finite numbers.`);
  const n = values.length;
  if (n < 2)
    return notEnough(
      `a mean with its error needs two values at least; there ${n === 1 ? 'is one' : 'is none'}.`,
    );
  const mean = values.reduce((total, value) => total + value, 0) / n;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  const standardDeviation = Math.sqrt(squares / (n - 1));
  return estimate(n, mean, standardDeviation, standardDeviation / Math.sqrt(n), n - 1, level);
}

/** Mean, error and degrees of freedom, with the t interval that follows from them. */
export function estimate(
  n: number,
  mean: number,
  standardDeviation: number,
  standardError: number,
  degrees: number,
  level: number,
): MeanEstimate {
  const half = standardError === 0 ? 0 : studentQuantile((1 + level) / 2, degrees) * standardError;
  return { n, mean, standardDeviation, standardError, degrees, low: mean - half, high: mean + half, level };
}
