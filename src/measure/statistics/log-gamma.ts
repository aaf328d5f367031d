/**
 * The natural logarithm of the gamma function, and what is counted with it.
 *
 * Source: Stirling's series, Abramowitz & Stegun 1964, 6.1.41, used from 16 on, where its first four terms are exact to
 * the last digit of a double; smaller arguments are raised by Γ(x + 1) = x Γ(x) (6.1.15).
 */

const seriesFrom = 16;

/** ln Γ(x) for x > 0. */
export function logGamma(x: number): number {
  let lifted = 1;
  let at = x;
  while (at < seriesFrom) {
    lifted *= at;
    at += 1;
  }
  const square = at * at;
  const series = (1 / 12 - (1 / 360 - (1 / 1260 - 1 / (1680 * square)) / square) / square) / at;
  return (at - 0.5) * Math.log(at) - at + 0.5 * Math.log(2 * Math.PI) + series - Math.log(lifted);
}

/** ln of the number of ways to choose `k` of `n`; whole numbers, 0 ≤ k ≤ n. */
export function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}
