/**
 * The normal distribution and Student's t: the share that lies below a value, and the value below which a share lies.
 *
 * Sources: Abramowitz & Stegun 1964: 26.2.10 and 26.2.14 (normal: series and continued fraction), 26.5.8 (incomplete
 * beta as a continued fraction), 26.5.27 and 26.7.1 (Student's t from it). Why no library: docs/decisions/libraries.md.
 */
import { logGamma } from './log-gamma.ts';
import { rootBetween } from './root.ts';

/** The share of a standard normal distribution that lies below `z`. */
export function normalBelow(z: number): number {
  if (z > 0) return 1 - normalAbove(z);
  return normalAbove(-z);
}

/** The share above `z`, z ≥ 0; small shares keep their digits. */
function normalAbove(z: number): number {
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < 3) {
    let term = z;
    let sum = z;
    for (let odd = 3; term > sum * 1e-17; odd += 2) {
      term *= (z * z) / odd;
      sum += term;
    }
    return 0.5 - density * sum;
  }
  let fraction = z;
  for (let step = 200; step >= 1; step -= 1) fraction = z + step / fraction;
  return density / fraction;
}

/**
 * The value below which the share `p` of a standard normal distribution lies.
 * @param p more than 0, less than 1
 */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p);
  return rootBetween((z) => normalBelow(z) - p, -40, 0);
}

/**
 * The share of Student's t distribution that lies below `t`.
 * @param degrees degrees of freedom, more than 0, also a fraction
 */
function studentBelow(t: number, degrees: number): number {
  const tail = 0.5 * betaBelow(degrees / (degrees + t * t), degrees / 2, 0.5);
  return t < 0 ? tail : 1 - tail;
}

/**
 * The value below which the share `p` of Student's t distribution lies.
 * @param p more than 0, less than 1
 * @param degrees degrees of freedom, more than 0, also a fraction
 */
export function studentQuantile(p: number, degrees: number): number {
  if (p < 0.5) return -studentQuantile(1 - p, degrees);
  if (p === 0.5) return 0;
  // Solved for the tail, so that a share close to 1 keeps its digits.
  let high = 1;
  while (1 - studentBelow(high, degrees) > 1 - p) high *= 2;
  return rootBetween((t) => studentBelow(-t, degrees) - (1 - p), 0, high);
}

/** The regularised incomplete beta function I_x(a, b): the share of a beta distribution that lies below `x`. */
function betaBelow(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The continued fraction converges fast on this side of the mean only.
  if (x > (a + 1) / (a + b + 2)) return 1 - betaBelow(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  let fraction = 1;
  for (let m = 200; m >= 1; m -= 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m - 1) * (a + b + m - 1) * x) / ((a + 2 * m - 2) * (a + 2 * m - 1));
    fraction = 1 + odd / (1 + even / fraction);
  }
  return front / (a * fraction);
}
