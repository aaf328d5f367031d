// The statistics against R 4.2.2: fixtures/statistics/r-values.json has the call of R beside each value, and
// fixtures/generate-r-values.ts makes the file again. Named tables have their source in the note; the others R has drawn.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pairedDifference, welchDifference } from '../../src/measure/statistics/difference.ts';
import { normalBelow, normalQuantile, studentQuantile } from '../../src/measure/statistics/distributions.ts';
import { fisherTest, type TwoByTwo } from '../../src/measure/statistics/fisher.ts';
import { logGamma } from '../../src/measure/statistics/log-gamma.ts';
import { meanEstimate } from '../../src/measure/statistics/mean.ts';
import { exactInterval, wilsonInterval } from '../../src/measure/statistics/proportion.ts';
import { rankTest } from '../../src/measure/statistics/ranks.ts';

type Call = Readonly<{
  what: string;
  call: string;
  note: string;
  input: Readonly<Record<string, unknown>>;
  result: Readonly<Record<string, unknown>>;
}>;
const file = new URL('../../fixtures/statistics/r-values.json', import.meta.url);
const { values } = JSON.parse(readFileSync(file, 'utf8')) as { values: Call[] };

const calls = (what: string) =>
  values.filter((one) => one.what === what).map((one) => [one.note || one.call, one] as const);
/** JSON has no infinity; the fixture has it as a word. */
const result = (call: Call, name: string) => Number(call.result[name]);
const input = (call: Call, name: string) => Number(call.input[name]);

/** Equal to so many parts of the value; infinities and NaN as they are. */
function expectNear(actual: number, wanted: number, relative: number): void {
  if (!Number.isFinite(wanted) || wanted === 0) expect(actual).toBe(wanted);
  else expect(Math.abs(actual / wanted - 1), `${actual} against ${wanted}`).toBeLessThan(relative);
}

describe("Fisher's exact test, against R", () => {
  it.each(calls('fisher'))('%s', (_, call) => {
    const test = fisherTest(call.input.table as TwoByTwo, input(call, 'level'));
    expectNear(test.p, result(call, 'p'), 1e-11);
    expectNear(test.pGreater, result(call, 'greater'), 1e-11);
    expectNear(test.pLess, result(call, 'less'), 1e-11);
    // The same equations solved by R to the last digits.
    expectNear(test.oddsRatio, result(call, 'tightEstimate'), 1e-9);
    expectNear(test.interval.low, result(call, 'tightLow'), 1e-9);
    expectNear(test.interval.high, result(call, 'tightHigh'), 1e-9);
    // fisher.test itself stops at a tolerance of 0.00012 on an odds ratio or, above 1, on its inverse.
    for (const [ours, name] of [
      [test.oddsRatio, 'estimate'],
      [test.interval.low, 'low'],
      [test.interval.high, 'high'],
    ] as const) {
      const theirs = result(call, name);
      if (Number.isFinite(theirs)) {
        const [one, other] = theirs > 1 ? [1 / ours, 1 / theirs] : [ours, theirs];
        expect(Math.abs(one - other)).toBeLessThan(1.3e-4);
      } else expect(ours).toBe(theirs);
    }
  });
});

describe('Mann–Whitney test and Hodges–Lehmann shift, against R', () => {
  it.each(calls('ranks'))('%s', (_, call) => {
    const [first, second] = [call.input.first as number[], call.input.second as number[]];
    const test = rankTest(first, second, input(call, 'level'));
    expect(test.u).toBe(result(call, 'u'));
    expectNear(test.p, result(call, 'p'), 1e-11);
    expect(test.distribution).toBe(call.result.exact === true ? 'exact' : 'normal');
    // With ties R searches the shift and its interval to a tolerance of 0.0001; exactly, they are differences.
    const within = call.result.exact === true ? 1e-9 : 1.1e-4;
    expect(Math.abs(test.interval.low - result(call, 'low'))).toBeLessThan(within);
    expect(Math.abs(test.interval.high - result(call, 'high'))).toBeLessThan(within);
    expect(Math.abs(test.shift - result(call, 'shift'))).toBeLessThan(within);
  });

  it('says which level the exact interval reaches when there are too few values for the one asked for', () => {
    // Three against three: 20 orders, so the widest interval has 1 - 2/20. Counted by hand.
    expect(rankTest([1, 2, 3], [4, 5, 6]).interval).toEqual({ low: -5, high: -1, level: 0.95, reached: 0.9 });
  });
});

describe('a share of counted things, against R', () => {
  it.each(calls('share'))('%s', (_, call) => {
    const [yes, of, level] = [input(call, 'yes'), input(call, 'of'), input(call, 'level')];
    const wilson = wilsonInterval(yes, of, level);
    const exact = exactInterval(yes, of, level);
    expect(wilson.low).toBeCloseTo(result(call, 'wilsonLow'), 12);
    expect(wilson.high).toBeCloseTo(result(call, 'wilsonHigh'), 12);
    expectNear(exact.low, result(call, 'exactLow'), 1e-11);
    expectNear(exact.high, result(call, 'exactHigh'), 1e-11);
  });
});

describe('a mean and its t interval, against R', () => {
  it.each(calls('mean'))('%s', (_, call) => {
    const estimate = meanEstimate(call.input.values as number[], input(call, 'level'));
    if ('notEnough' in estimate) throw new Error(estimate.notEnough);
    expectNear(estimate.mean, result(call, 'mean'), 1e-14);
    expectNear(estimate.standardError, result(call, 'standardError'), 1e-13);
    expect(estimate.degrees).toBe(result(call, 'degrees'));
    expect(estimate.low).toBeCloseTo(result(call, 'low'), 10);
    expect(estimate.high).toBeCloseTo(result(call, 'high'), 10);
  });
});

describe('a difference of two means and its t interval, against R', () => {
  const expectAs = (call: Call, estimate: ReturnType<typeof welchDifference>) => {
    if ('notEnough' in estimate) throw new Error(estimate.notEnough);
    expectNear(estimate.difference, result(call, 'difference'), 1e-13);
    expectNear(estimate.standardError, result(call, 'standardError'), 1e-13);
    expectNear(estimate.degrees, result(call, 'degrees'), 1e-12);
    expectNear(estimate.low, result(call, 'low'), 1e-10);
    expectNear(estimate.high, result(call, 'high'), 1e-10);
  };
  const samples = (call: Call) => [call.input.first as number[], call.input.second as number[]] as const;
  it.each(calls('paired difference'))('of the same things: %s', (_, call) => {
    const [first, second] = samples(call);
    const pairs = first.map((value, at) => [value, second[at] ?? Number.NaN] as const);
    expectAs(call, pairedDifference(pairs, input(call, 'level')));
  });
  it.each(calls('difference'))('of two samples: %s', (_, call) => {
    expectAs(call, welchDifference(...samples(call), input(call, 'level')));
  });
});

describe('the distributions behind them, against R', () => {
  it.each(calls('t quantile'))('%s', (_, call) => {
    expectNear(studentQuantile(input(call, 'p'), input(call, 'degrees')), result(call, 'value'), 1e-11);
  });
  it.each(calls('normal below'))('%s', (_, call) => {
    expectNear(normalBelow(input(call, 'z')), result(call, 'value'), 1e-13);
  });
  it.each(calls('normal quantile'))('%s', (_, call) => {
    expectNear(normalQuantile(input(call, 'p')), result(call, 'value'), 1e-12);
  });
  it.each(calls('log gamma'))('%s', (_, call) => {
    const wanted = result(call, 'value');
    expect(Math.abs(logGamma(input(call, 'x')) - wanted)).toBeLessThan(1e-13 * Math.max(1, Math.abs(wanted)));
  });
});
