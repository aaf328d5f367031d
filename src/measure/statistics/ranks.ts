/**
 * The Mann–Whitney test (Wilcoxon's rank sum test) of two samples, and the Hodges–Lehmann shift between them.
 *
 * Sources: Mann & Whitney 1947 (the statistic and the recursion of its exact distribution); Hodges & Lehmann 1963 (the
 * shift: the median of all differences); Bauer 1972 (its exact interval); Hollander & Wolfe 1973 (normal approximation
 * with corrections for ties and continuity). When the exact distribution is taken and when the approximation is as in
 * the documentation of wilcox.test in R: exact with fewer than 50 values on either side and no ties.
 */
import { normalBelow, normalQuantile } from './distributions.ts';
import { checkLevel } from './level.ts';
import { medianOfSorted } from './median.ts';

export type RankTest = Readonly<{
  /** How many pairs have the greater value in the first sample; ties count one half. */
  u: number;
  /** Two-sided. */
  p: number;
  /** Hodges–Lehmann: the median of all differences first minus second, in the unit of the samples. */
  shift: number;
  /** Interval of the shift. `level` was asked for; `reached` is what the exact interval has, at most that for few values. */
  interval: Readonly<{ low: number; high: number; level: number; reached: number }>;
  /** 'exact', or 'normal' for the normal approximation with corrections for ties and continuity. */
  distribution: 'exact' | 'normal';
}>;

const exactBelow = 50;

/**
 * The Mann–Whitney test of two samples.
 *
 * @param first at least one finite value
 * @param second at least one finite value, in the same unit
 * @param level confidence level of the interval, 0.95 by default
 * @throws RangeError for an empty sample, a value that is no number, or a level outside 0 to 1
 */
export function rankTest(first: readonly number[], second: readonly number[], level = 0.95): RankTest {
  check('first', first);
  check('second', second);
  checkLevel(level);
  const ties = tiesIn([...first, ...second]);
  const differences = first.flatMap((one) => second.map((other) => one - other)).sort((a, b) => a - b);
  const u = pairsAbove(differences, 0);
  const shift = medianOfSorted(differences);
  const exact = ties.length === 0 && first.length < exactBelow && second.length < exactBelow;
  return exact
    ? { u, shift, distribution: 'exact', ...exactly(u, differences, [first.length, second.length], level) }
    : { u, shift, distribution: 'normal', ...approximately(first, second, differences, level) };
}

type Sizes = readonly [number, number];

function exactly(u: number, differences: readonly number[], sizes: Sizes, level: number) {
  const below = exactBelowOf(sizes);
  const pairs = differences.length;
  const p = Math.min(1, 2 * Math.min(below(u), below(pairs - u)));
  const tail = (1 - level) / 2;
  let rank = 0;
  while (below(rank) < tail) rank += 1;
  // With very few values even the widest interval does not reach the level.
  rank = Math.max(1, rank);
  const low = differences[rank - 1] ?? Number.NaN;
  const high = differences[pairs - rank] ?? Number.NaN;
  return { p, interval: { low, high, level, reached: 1 - 2 * below(rank - 1) } };
}

/** How likely U is at most a count, when all orders of the values are equally likely. */
function exactBelowOf([m, n]: Sizes): (count: number) => number {
  // share[j][u]: of i values of the first sample among j of the second; grown by the greatest value of all.
  let share: number[][] = Array.from({ length: n + 1 }, () => [1]);
  for (let i = 1; i <= m; i += 1) {
    const next: number[][] = [[1]];
    for (let j = 1; j <= n; j += 1) {
      const fromFirst = share[j] ?? [];
      const fromSecond = next[j - 1] ?? [];
      next.push(
        Array.from(
          { length: i * j + 1 },
          (_, count) => (i * (fromFirst[count - j] ?? 0) + j * (fromSecond[count] ?? 0)) / (i + j),
        ),
      );
    }
    share = next;
  }
  const shares = share[n] ?? [1];
  const sums: number[] = [];
  let total = 0;
  for (const one of shares) {
    total += one;
    sums.push(total);
  }
  return (count) => (count < 0 ? 0 : (sums[Math.min(Math.floor(count), sums.length - 1)] ?? 1));
}

function approximately(
  first: readonly number[],
  second: readonly number[],
  differences: readonly number[],
  level: number,
) {
  const half = differences.length / 2;
  const z = (above: number, ties: readonly number[]): number => {
    const spread = spreadOf([first.length, second.length], ties);
    const off = above - half;
    return spread === 0 ? 0 : (off - Math.sign(off) * 0.5) / spread;
  };
  const p = Math.min(
    1,
    2 * normalBelow(-Math.abs(z(pairsAbove(differences, 0), tiesIn([...first, ...second])))),
  );
  const moved = (by: number): number =>
    z(pairsAbove(differences, by), tiesIn([...first.map((value) => value - by), ...second]));
  const quantile = -normalQuantile((1 - level) / 2);
  const distinct = [...new Set(differences)];
  const low = turn(distinct, moved, quantile);
  const high = turn(distinct, moved, -quantile);
  return { p, interval: { low, high, level, reached: level } };
}

/**
 * The shift at which the test statistic goes from above to below `limit`. It changes only where a difference is, so one
 * of the differences it is; the outermost ones where it never does.
 */
function turn(distinct: readonly number[], moved: (by: number) => number, limit: number): number {
  let below = 0;
  let above = distinct.length - 1;
  while (below < above) {
    const middle = Math.floor((below + above) / 2);
    const just = ((distinct[middle] ?? 0) + (distinct[middle + 1] ?? 0)) / 2;
    if (moved(just) <= limit) above = middle;
    else below = middle + 1;
  }
  return distinct[below] ?? Number.NaN;
}

/** Standard deviation of U, corrected for ties. */
function spreadOf([m, n]: Sizes, ties: readonly number[]): number {
  const all = m + n;
  const tied = ties.reduce((total, size) => total + (size ** 3 - size), 0);
  return Math.sqrt(((m * n) / 12) * (all + 1 - tied / (all * (all - 1))));
}

/** How many values stand in each place where several are equal. */
function tiesIn(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((size) => size > 1);
}

/** Pairs whose difference is greater than `by`; equal ones count one half. */
function pairsAbove(differences: readonly number[], by: number): number {
  return differences.reduce((count, difference) => {
    if (difference === by) return count + 0.5;
    return difference > by ? count + 1 : count;
  }, 0);
}

function check(name: string, values: readonly number[]): void {
  if (values.length === 0) throw new RangeError(`${name}: is empty; the test needs values on both sides.`);
  const wrong = values.find((value) => !Number.isFinite(value));
  if (wrong !== undefined) throw new RangeError(`${name}: ${wrong} is no value; give finite numbers.`);
}
