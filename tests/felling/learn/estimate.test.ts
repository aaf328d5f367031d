// The direction error from measured falls: against printed quantiles of chi-square, against another computation of the bias, and by
// drawing falls whose true error is known.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../src/felling/index.ts';
import { errorAt, estimateFrom, type Off } from '../../../src/felling/learn/estimate.ts';
import { meanEstimate } from '../../../src/measure/statistics/mean.ts';

const sound = (off: number): Off => ({ off, added: 0, times: 1 });
/** Falls of the same size to both sides in turn. */
const alternating = (count: number, size: number, more: Partial<Off> = {}) =>
  Array.from({ length: count }, (_, at) => ({ ...sound(at % 2 === 0 ? size : -size), ...more }));

describe('of sound stems felled with their lean', () => {
  // NIST/SEMATECH e-Handbook 7.2.3.1: the ends are s √(ν / χ²); with the aim known ν is n. Quantiles of χ² with 15 degrees of
  // freedom from its table 1.3.6.7.4: lower 0.05 7.261, upper 0.05 24.996, lower 0.10 8.547.
  it('it is the root mean square, with the interval of a standard deviation about a known mean', () => {
    const { sigma, interval, upper, falls } = estimateFrom(alternating(15, 5), 0.9);
    expect(falls).toBe(15);
    expect(sigma).toBeCloseTo(5, 9);
    expect(interval.low).toBeCloseTo(5 * Math.sqrt(15 / 24.996), 3);
    expect(interval.high).toBeCloseTo(5 * Math.sqrt(15 / 7.261), 3);
    expect(upper).toBeCloseTo(5 * Math.sqrt(15 / 8.547), 3);
  });

  it('one miss of 40° counts in full: nothing is left out', () => {
    // √((14 · 5² + 40²) / 15), by hand.
    const falls = [...alternating(14, 5), sound(40)];
    expect(estimateFrom(falls, 0.8).sigma).toBeCloseTo(Math.sqrt(1950 / 15), 9);
  });
});

describe('of stems that the model gives a wider error', () => {
  it('lays twice as far off stand for the same direction error where the error is twice as wide', () => {
    const one = estimateFrom(alternating(15, 5), 0.8);
    const other = estimateFrom(alternating(15, 10, { times: 2 }), 0.8);
    expect(other.sigma).toBeCloseTo(one.sigma, 9);
    expect(other.upper).toBeCloseTo(one.upper, 9);
  });

  it('what is added for lean or wind is taken off again', () => {
    // All alike: (σ + 3) is the root mean square, 8°, so that σ is 5°; and so for every quantile.
    const { sigma, upper } = estimateFrom(alternating(20, 8, { added: 3 }), 0.8);
    expect(sigma).toBeCloseTo(5, 9);
    expect(upper + 3).toBeCloseTo(estimateFrom(alternating(20, 8), 0.8).upper, 9);
  });

  it('is 0 where the lays are nearer to their aims than what is added explains', () => {
    expect(estimateFrom(alternating(15, 1, { added: 3 }), 0.8).sigma).toBe(0);
    expect(estimateFrom(alternating(15, 0), 0.8)).toMatchObject({
      sigma: 0,
      upper: 0,
      bias: { mean: 0, error: 0 },
    });
  });

  it('needs two falls', () => {
    expect(() => estimateFrom([sound(3)], 0.8)).toThrow(RangeError);
  });
});

describe('to one side', () => {
  it('falls alike give the mean and Student’s interval, as computed elsewhere', () => {
    const offs = [4, -2, 7, -12, -2, 6, -11, -4, 2, -4, 4, 1, -3, -2, 8];
    const { mean, interval } = estimateFrom(offs.map(sound), 0.8).bias;
    // src/measure is held against R in its own tests; here it knows nothing of weights.
    const expected = meanEstimate(offs, 0.95);
    expect(expected).toMatchObject({
      mean: expect.closeTo(mean, 9) as unknown,
      low: expect.closeTo(interval.low, 9) as unknown,
      high: expect.closeTo(interval.high, 9) as unknown,
    });
  });

  it('a fall of which little is known counts little', () => {
    const offs: Off[] = [sound(1), sound(1), { off: 100, added: 0, times: 100 }];
    expect(estimateFrom(offs, 0.8).bias.mean).toBeCloseTo(1, 1);
  });
});

describe('drawn falls whose true error is known', () => {
  // Mixed stems: sound, leaning, decayed, dead, in wind. The sum is chi-square whatever they are, so that each interval holds the
  // truth as often as it says. 10,000 repeats: one standard error of a share of 0.8 is 0.004, of 0.9 0.003.
  const random = seeded(20261127);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const widenings = [0, 0, 1, 2.5, 3, 3, 0, 4].flatMap((added) =>
    [1, 1, 1.5, 1.875].map((times) => ({ added, times })),
  );

  it('15 falls at 5°: the intervals hold it as often as they say', () => {
    const [count, truth] = [15, 5];
    const repeats = 10_000;
    let [within, below] = [0, 0];
    const parts = Array.from(
      { length: count },
      (_, at) => widenings[(at * 5) % widenings.length] ?? { added: 0, times: 1 },
    );
    for (let repeat = 0; repeat < repeats; repeat += 1) {
      const falls = parts.map((part): Off => ({ ...part, off: normal() * errorAt(part, truth) }));
      const { interval, upper } = estimateFrom(falls, 0.8);
      if (interval.low <= truth && truth <= interval.high) within += 1;
      if (truth <= upper) below += 1;
    }
    expect(Math.abs(within / repeats - 0.9)).toBeLessThan(4 * 0.003);
    expect(Math.abs(below / repeats - 0.8)).toBeLessThan(4 * 0.004);
  }, 120_000);
});
