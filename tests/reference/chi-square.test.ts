// The chi-square distribution against a published table, against its closed form for even degrees of freedom, and against
// the normal distribution that one degree of freedom is the square of.
import { describe, expect, it } from 'vitest';
import { chiSquareBelow, chiSquareQuantile } from '../../src/measure/statistics/chi-square.ts';
import { normalBelow } from '../../src/measure/statistics/distributions.ts';

describe('critical values of chi-square, as printed', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, lower critical values: probability of exceeding them
  // 0.90, 0.95, 0.975, 0.99. Three decimals.
  it.each([
    [1, [0.016, 0.004, 0.001, 0.0]],
    [2, [0.211, 0.103, 0.051, 0.02]],
    [5, [1.61, 1.145, 0.831, 0.554]],
    [9, [4.168, 3.325, 2.7, 2.088]],
    [10, [4.865, 3.94, 3.247, 2.558]],
    [15, [8.547, 7.261, 6.262, 5.229]],
    [20, [12.443, 10.851, 9.591, 8.26]],
    [30, [20.599, 18.493, 16.791, 14.953]],
    [50, [37.689, 34.764, 32.357, 29.707]],
    [100, [82.358, 77.929, 74.222, 70.065]],
  ] as const)('%i degrees of freedom, the lower tail', (degrees, printed) => {
    for (const [at, above] of [0.9, 0.95, 0.975, 0.99].entries())
      expect(Math.abs(chiSquareQuantile(1 - above, degrees) - (printed[at] ?? 0))).toBeLessThan(0.00051);
  });

  // The same handbook's upper critical values, as many tables print them: 0.10, 0.05, 0.025, 0.01 (from memory).
  it.each([
    [1, [2.706, 3.841, 5.024, 6.635]],
    [10, [15.987, 18.307, 20.483, 23.209]],
    [15, [22.307, 24.996, 27.488, 30.578]],
    [30, [40.256, 43.773, 46.979, 50.892]],
    [100, [118.498, 124.342, 129.561, 135.807]],
  ] as const)('%i degrees of freedom, the upper tail', (degrees, printed) => {
    for (const [at, above] of [0.1, 0.05, 0.025, 0.01].entries())
      expect(Math.abs(chiSquareQuantile(1 - above, degrees) - (printed[at] ?? 0))).toBeLessThan(0.00051);
  });
});

describe('the share below', () => {
  // Abramowitz & Stegun 1964, 26.4.21: for even degrees the share above x is a Poisson sum, which has nothing to do with
  // how it is computed here.
  it.each([2, 4, 10, 30, 60, 200, 400])('equals the closed form for %i degrees of freedom', (degrees) => {
    for (const times of [0.3, 0.7, 0.95, 1, 1.05, 1.4, 2.5]) {
      const x = times * degrees;
      let term = Math.exp(-x / 2);
      let above = term;
      for (let k = 1; k < degrees / 2; k += 1) {
        term *= x / 2 / k;
        above += term;
      }
      expect(Math.abs(chiSquareBelow(x, degrees) - (1 - above))).toBeLessThan(1e-12);
    }
  });

  // By definition: chi-square with one degree of freedom is the square of a standard normal variable.
  it('for one degree of freedom lies within the root to both sides of the normal distribution', () => {
    for (const x of [0.001, 0.5, 1, 2, 3.841, 10, 40]) {
      const root = Math.sqrt(x);
      expect(Math.abs(chiSquareBelow(x, 1) - (normalBelow(root) - normalBelow(-root)))).toBeLessThan(1e-13);
    }
    expect(chiSquareBelow(0, 3)).toBe(0);
    expect(chiSquareBelow(-1, 3)).toBe(0);
  });

  it('is what the quantile goes back to, also for many degrees', () => {
    for (const degrees of [0.5, 1, 3, 15, 77.5, 1000, 20000])
      for (const p of [0.001, 0.1, 0.2, 0.5, 0.9, 0.999])
        expect(Math.abs(chiSquareBelow(chiSquareQuantile(p, degrees), degrees) - p)).toBeLessThan(1e-11);
  });
});
