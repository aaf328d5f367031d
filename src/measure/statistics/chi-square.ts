/**
 * The chi-square distribution: the share that lies below a value, and the value below which a share lies. From the
 * incomplete gamma function as a series and as a continued fraction.
 *
 * Sources: Abramowitz & Stegun 1964: 6.5.29 (series), 6.5.31 (continued fraction), 26.4.19 (chi-square from them).
 * Why no library: docs/decisions/libraries.md.
 */
import { logGamma } from './log-gamma.ts';
import { rootBetween } from './root.ts';

/**
 * The share of a chi-square distribution that lies below `x`.
 * @param degrees degrees of freedom, more than 0, also a fraction
 */
export function chiSquareBelow(x: number, degrees: number): number {
  if (x <= 0) return 0;
  const { below, above } = gammaShares(degrees / 2, x / 2);
  return below ?? 1 - (above ?? 0);
}

/**
 * The value below which the share `p` of a chi-square distribution lies.
 * @param p more than 0, less than 1
 * @param degrees degrees of freedom, more than 0, also a fraction
 */
export function chiSquareQuantile(p: number, degrees: number): number {
  let high = degrees;
  while (chiSquareBelow(high, degrees) < p) high *= 2;
  return rootBetween((x) => chiSquareBelow(x, degrees) - p, 0, high);
}

/** The regularised incomplete gamma function, below or above `x`: whichever is computed well there. */
function gammaShares(shape: number, x: number): { below?: number; above?: number } {
  const front = Math.exp(shape * Math.log(x) - x - logGamma(shape));
  if (x < shape + 1) {
    let term = 1 / shape;
    let sum = term;
    for (let next = shape + 1; term > sum * 1e-17; next += 1) {
      term *= x / next;
      sum += term;
    }
    return { below: front * sum };
  }
  // 6.5.31, evaluated from its far end; 200 parts are enough from x = shape + 1 on up to some thousand degrees.
  let fraction = 0;
  for (let step = Math.max(200, Math.ceil(4 * Math.sqrt(shape))); step >= 1; step -= 1)
    fraction = (step * (shape - step)) / (x + 2 * step + 1 - shape + fraction);
  return { above: front / (x + 1 - shape + fraction) };
}
