// What must hold for any data, and what is refused. The values stand in tests/reference/statistics.test.ts.
import { assert, constantFrom, integer, property, tuple, uniqueArray } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fisherTest, type TwoByTwo } from '../../src/measure/statistics/fisher.ts';
import { meanEstimate } from '../../src/measure/statistics/mean.ts';
import { exactInterval, wilsonInterval } from '../../src/measure/statistics/proportion.ts';
import { rankTest } from '../../src/measure/statistics/ranks.ts';

const count = integer({ min: 0, max: 40 });
const level = constantFrom(0.8, 0.9, 0.95);
/** Values that are exact as doubles, so that differences are too. */
const sample = uniqueArray(integer({ min: -200, max: 200 }), { minLength: 4, maxLength: 12 });

describe("Fisher's exact test", () => {
  it('is the same seen from the other row, with the odds ratio the other way up', () => {
    assert(
      property(tuple(count, count, count, count), level, ([a, b, c, d], of) => {
        const one = fisherTest(
          [
            [a, b],
            [c, d],
          ] satisfies TwoByTwo,
          of,
        );
        const other = fisherTest(
          [
            [c, d],
            [a, b],
          ] satisfies TwoByTwo,
          of,
        );
        expect(one.p).toBeCloseTo(other.p, 10);
        expect(one.pGreater).toBeCloseTo(other.pLess, 10);
        if (one.oddsRatio > 0 && one.oddsRatio < Number.POSITIVE_INFINITY)
          expect(one.oddsRatio * other.oddsRatio).toBeCloseTo(1, 8);
      }),
    );
  });

  it('has its estimate within its interval, and a p value that is a share', () => {
    assert(
      property(tuple(count, count, count, count), level, ([a, b, c, d], of) => {
        const test = fisherTest(
          [
            [a, b],
            [c, d],
          ],
          of,
        );
        expect(test.p).toBeGreaterThan(0);
        expect(test.p).toBeLessThanOrEqual(1);
        if (Number.isNaN(test.oddsRatio)) return;
        expect(test.interval.low).toBeLessThanOrEqual(test.oddsRatio);
        expect(test.interval.high).toBeGreaterThanOrEqual(test.oddsRatio);
      }),
    );
  });

  it('refuses what is no count and no level, naming it', () => {
    expect(() =>
      fisherTest([
        [1, -2],
        [3, 4],
      ]),
    ).toThrow('table: -2 is no count');
    expect(() =>
      fisherTest([
        [1.5, 2],
        [3, 4],
      ]),
    ).toThrow('table: 1.5 is no count');
    expect(() =>
      fisherTest(
        [
          [1, 2],
          [3, 4],
        ],
        95,
      ),
    ).toThrow('level: 95 is no confidence level');
  });
});

describe('Mann–Whitney test', () => {
  it('moves with the values: a shifted sample has its shift moved by as much', () => {
    assert(
      property(sample, sample, integer({ min: -50, max: 50 }), (first, second, by) => {
        const here = rankTest(first, second);
        const there = rankTest(
          first.map((value) => value + by),
          second,
        );
        expect(there.shift).toBe(here.shift + by);
        if (here.distribution === there.distribution)
          expect(there.interval.low).toBeCloseTo(here.interval.low + by, 10);
      }),
    );
  });

  it('is the same seen from the other sample, with the shift the other way', () => {
    assert(
      property(sample, sample, (first, second) => {
        const one = rankTest(first, second);
        const other = rankTest(second, first);
        expect(one.p).toBeCloseTo(other.p, 10);
        expect(one.shift).toBeCloseTo(-other.shift, 10);
        expect(one.u + other.u).toBe(first.length * second.length);
      }),
    );
  });

  it('says nothing of two samples whose values are all the same', () => {
    const test = rankTest([2, 2, 2], [2, 2, 2]);
    expect(test).toMatchObject({ p: 1, shift: 0, distribution: 'normal' });
    expect(test.interval).toMatchObject({ low: 0, high: 0 });
  });

  it('refuses an empty sample and what is no number, naming it', () => {
    expect(() => rankTest([], [1])).toThrow('first: is empty');
    expect(() => rankTest([1], [Number.NaN])).toThrow('second: NaN is no value');
  });
});

describe('a share of counted things', () => {
  it('has the exact interval around the share, and one end of it at 0 or 1 when none or all are', () => {
    assert(
      property(integer({ min: 1, max: 60 }), integer({ min: 0, max: 60 }), level, (of, some, at) => {
        const yes = Math.min(some, of);
        for (const interval of [exactInterval(yes, of, at), wilsonInterval(yes, of, at)]) {
          expect(interval.low).toBeLessThanOrEqual(interval.share);
          expect(interval.high).toBeGreaterThanOrEqual(interval.share);
          if (yes === 0) expect(interval.low).toBe(0);
          if (yes === of) expect(interval.high).toBe(1);
        }
      }),
    );
  });

  it('refuses more than there are, and none at all', () => {
    expect(() => exactInterval(5, 4)).toThrow('yes: 5 is no part of 4');
    expect(() => wilsonInterval(0, 0)).toThrow('of: 0 is no count');
  });
});

describe('a mean', () => {
  it('has no error when there is one value', () => {
    expect(meanEstimate([4])).toEqual({
      notEnough: 'not enough data: a mean with its error needs two values at least; there is one.',
    });
  });

  it('has an interval of one point when all values are the same', () => {
    expect(meanEstimate([4, 4, 4])).toMatchObject({ mean: 4, standardError: 0, low: 4, high: 4 });
  });

  it('refuses what is no number', () => {
    expect(() => meanEstimate([1, Number.POSITIVE_INFINITY])).toThrow('values: Infinity is no value');
  });
});
