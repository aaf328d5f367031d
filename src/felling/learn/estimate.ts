/**
 * The direction error estimated from falls that were measured. By the model a fall goes off its aim by a normal error with the
 * standard deviation (σ + added) × times, σ being the direction error of a sound stem felled with its lean. The sum of
 * (off ÷ that)² over n falls is then distributed as chi-square with n degrees of freedom whatever σ is, and it falls as σ
 * rises: so each quantile of chi-square gives one end of an interval for σ, exactly, by the value of σ for which the sum is that
 * quantile. Where nothing is added and nothing multiplied it is the usual interval of a standard deviation about a known mean.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.3.1, here with n degrees of freedom because the aim is known.
 */
import { chiSquareQuantile, studentQuantile } from '../../measure/index.ts';

/** One fall: degrees off the aim, and what the model widens the error by. */
export type Off = Readonly<{ off: number; added: number; times: number }>;

/** Degrees. */
export type Interval = Readonly<{ low: number; high: number }>;

export type Estimate = Readonly<{
  falls: number;
  /** The direction error for which the falls are as wide on average as the model says. */
  sigma: number;
  /** Between its ends it lies with 90 %, by the model. */
  interval: Interval;
  /** Above this it lies with no more than 1 − level. */
  upper: number;
  /** How far to the right of the aim stems lie on average; nothing is taken off for it. */
  bias: Readonly<{ mean: number; error: number; interval: Interval }>;
}>;

/** How sure the interval that is shown is, two-sided, and the one of the bias. */
const SHOWN = 0.9;
const SHOWN_BIAS = 0.95;
/** No direction error is looked for beyond a turn to the back, degrees. */
const WIDEST = 180;

/**
 * @param level one-sided, 0.5 to 1
 * @throws RangeError with fewer than two falls
 */
export function estimateFrom(falls: readonly Off[], level: number): Estimate {
  const count = falls.length;
  if (count < 2) throw new RangeError(`${count} falls: an estimate needs two at least`);
  const at = (quantile: number) => sigmaWhere(falls, quantile);
  const sigma = at(count);
  return {
    falls: count,
    sigma,
    interval: {
      low: at(chiSquareQuantile((1 + SHOWN) / 2, count)),
      high: at(chiSquareQuantile((1 - SHOWN) / 2, count)),
    },
    upper: at(chiSquareQuantile(1 - level, count)),
    bias: biasOf(falls, sigma),
  };
}

/** What the model says of one fall at a direction error, degrees. */
export function errorAt({ added, times }: Pick<Off, 'added' | 'times'>, sigma: number): number {
  return (sigma + added) * times;
}

/** The direction error at which the sum of squares is this; 0 where it is smaller even then. */
function sigmaWhere(falls: readonly Off[], sum: number): number {
  const over = (sigma: number) =>
    falls.reduce((total, fall) => total + (fall.off / errorAt(fall, sigma)) ** 2, 0) > sum;
  let [low, high] = [0, WIDEST];
  if (!over(low)) return 0;
  if (over(high)) return high;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return middle;
    if (over(middle)) low = middle;
    else high = middle;
  }
}

/** The mean, each fall weighted by how well the model says it is aimed; its error from the spread of the falls themselves. */
function biasOf(falls: readonly Off[], sigma: number): Estimate['bias'] {
  const weighed = falls.map((fall) => ({
    off: fall.off,
    weight: 1 / Math.max(errorAt(fall, sigma), 1e-9) ** 2,
  }));
  const weights = weighed.reduce((sum, { weight }) => sum + weight, 0);
  const mean = weighed.reduce((sum, { off, weight }) => sum + off * weight, 0) / weights;
  const spread = weighed.reduce((sum, { off, weight }) => sum + weight * (off - mean) ** 2, 0);
  const error = Math.sqrt(spread / (falls.length - 1) / weights);
  const wide = studentQuantile((1 + SHOWN_BIAS) / 2, falls.length - 1) * error;
  return { mean, error, interval: { low: mean - wide, high: mean + wide } };
}
