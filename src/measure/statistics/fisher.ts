/**
 * Fisher's exact test of a table of two rows and two columns, and the odds ratio that goes with it.
 *
 * Sources: Fisher 1935 (the test); Cornfield 1956 (noncentral hypergeometric distribution of a cell with all margins
 * held); the estimate is the conditional maximum likelihood one and the interval inverts two one-sided tests, as in the
 * documentation of fisher.test in R. ad/bc, the odds ratio of the sample, is another number.
 */
import { checkLevel } from './level.ts';
import { logChoose } from './log-gamma.ts';
import { rootBetween } from './root.ts';

/** Counts: one row per group, with (yes) and without (no) what is looked for. */
export type TwoByTwo = readonly [
  row: readonly [yes: number, no: number],
  row: readonly [yes: number, no: number],
];

export type FisherTest = Readonly<{
  /** Two-sided: the tables with the same margins that are no more likely than this one. */
  p: number;
  /** One-sided: the odds are higher in the first row. */
  pGreater: number;
  /** One-sided: the odds are lower in the first row. */
  pLess: number;
  /** Conditional maximum likelihood estimate; 0 or Infinity where a margin is used up, NaN where only one table is possible. */
  oddsRatio: number;
  /** Exact interval of the odds ratio. */
  interval: Readonly<{ low: number; high: number; level: number }>;
}>;

/** Tables that differ in their last digits only count as equally likely; R takes the same share. */
const sameLikelihood = 1 + 1e-7;

/**
 * Fisher's exact test.
 *
 * @param table counts, whole numbers from 0 to a million
 * @param level confidence level of the interval, 0.95 by default
 * @throws RangeError for a count that is no whole number of at least 0, or a level outside 0 to 1
 */
export function fisherTest(table: TwoByTwo, level = 0.95): FisherTest {
  checkCounts(table);
  checkLevel(level);
  const cell = firstCell(table);
  const seen = table[0][0];
  const shares = cell.sharesAt(0);
  const likelihood = shares[seen - cell.least] ?? 0;
  const oddsRatio = likeliest(cell, seen);
  return {
    p: Math.min(1, sum(shares.filter((share) => share <= likelihood * sameLikelihood))),
    pGreater: cell.atLeast(seen, 0),
    pLess: cell.atMost(seen, 0),
    oddsRatio,
    interval: { ...intervalOf(cell, seen, (1 - level) / 2), level },
  };
}

/** The first cell of a table whose margins are held: which counts it can have, and how likely each is. */
type Cell = Readonly<{
  least: number;
  most: number;
  /** The share of each possible count, from `least` on, at a logarithm of the odds ratio. */
  sharesAt: (logOdds: number) => number[];
  meanAt: (logOdds: number) => number;
  atLeast: (count: number, logOdds: number) => number;
  atMost: (count: number, logOdds: number) => number;
}>;

function firstCell([[a, b], [c, d]]: TwoByTwo): Cell {
  const inFirstRow = a + b;
  const inSecondRow = c + d;
  const yes = a + c;
  const least = Math.max(0, yes - inSecondRow);
  const most = Math.min(inFirstRow, yes);
  const logs = Array.from({ length: most - least + 1 }, (_, index) => {
    const count = least + index;
    return logChoose(inFirstRow, count) + logChoose(inSecondRow, yes - count);
  });
  const sharesAt = (logOdds: number): number[] => {
    const weighed = logs.map((log, index) => log + index * logOdds);
    const greatest = weighed.reduce((one, other) => Math.max(one, other), Number.NEGATIVE_INFINITY);
    const weights = weighed.map((log) => Math.exp(log - greatest));
    const total = sum(weights);
    return weights.map((weight) => weight / total);
  };
  return {
    least,
    most,
    sharesAt,
    meanAt: (logOdds) => sum(sharesAt(logOdds).map((share, index) => share * (least + index))),
    atLeast: (count, logOdds) => Math.min(1, sum(sharesAt(logOdds).slice(Math.max(0, count - least)))),
    atMost: (count, logOdds) => Math.min(1, sum(sharesAt(logOdds).slice(0, Math.max(0, count - least + 1)))),
  };
}

/** Beyond e^60 to one no table of countable stumps tells odds apart. */
const farthest = 60;

/** The odds ratio at which the count that was seen is the mean. */
function likeliest(cell: Cell, seen: number): number {
  if (cell.least === cell.most) return Number.NaN;
  if (seen === cell.least) return 0;
  if (seen === cell.most) return Number.POSITIVE_INFINITY;
  return Math.exp(rootBetween((logOdds) => cell.meanAt(logOdds) - seen, -farthest, farthest));
}

/** The odds ratios at which the count that was seen, or one farther out, has just the share `tail`. */
function intervalOf(cell: Cell, seen: number, tail: number): { low: number; high: number } {
  const solve = (share: (logOdds: number) => number) =>
    Math.exp(rootBetween((logOdds) => share(logOdds) - tail, -farthest, farthest));
  return {
    low: seen === cell.least ? 0 : solve((logOdds) => cell.atLeast(seen, logOdds)),
    high: seen === cell.most ? Number.POSITIVE_INFINITY : solve((logOdds) => cell.atMost(seen, logOdds)),
  };
}

function checkCounts(table: TwoByTwo): void {
  for (const count of table.flat()) {
    if (!Number.isInteger(count) || count < 0 || count > 1_000_000)
      throw new RangeError(`table: ${count} is no count; give whole numbers from 0 to 1,000,000.`);
  }
}

/** Adds from the smallest on, so that many small shares are not lost beside a large one. */
function sum(values: readonly number[]): number {
  return [...values].sort((one, other) => one - other).reduce((total, value) => total + value, 0);
}
