// A bound below the cost of every order of a large group.
//
// Let C be some of the stems. In any order, when stem i of C falls while S stands, it costs at least what it costs while
// only those of C stand, for nothing gets dearer when something else comes down; and an aim within the limit stays within it. The order,
// restricted to C, is one of the orders of C. Give each stem weights that sum to 1 over the clusters that hold it:
// cost(i, S) = sum over C of w(i, C) × cost(i, S) ≥ sum over C of w(i, C) × cost(i, S ∩ C). Summed over the stems, the cost of
// the order is at least the sum over clusters of the least cost of any order of the cluster with its costs so
// weighted, and that least is found exactly by the dynamic programme. It holds for every choice of weights; looking for good ones
// (a subgradient ascent) only makes the bound better. Pairs are the smallest clusters.
import { aimsOf, pairCosts } from './costs.ts';
import { tablesOf } from './exact.ts';
import { countBits, mayFall, turnsOf } from './subsets.ts';
import { type ChanceTable, cheapest, type Price, tableBytes } from './tables.ts';
import { partOf, type Task } from './task.ts';

/** Some of the stems, with what does not depend on the price: the chances of their aims, and which of each set may fall next. */
type Cluster = Readonly<{
  stems: readonly number[];
  part: Task;
  tables: readonly (readonly ChanceTable[])[];
  may: Int32Array;
}>;

/** A cluster at a price. `costs[set × size + stem]`: of felling a stem of a set, with the rest of it standing. */
type Priced = Readonly<{
  stems: readonly number[];
  costs: Float64Array;
  may: Int32Array;
  weights: Float64Array;
}>;

const hangUpsAlone: Price = { hangUp: 1, loss: 0 };

/** How many stems a cluster has, and how many times weights are changed. */
const clusterSize = 11;
const rounds = 100;

/**
 * @param found the cost of a known order, which sets how far weights move
 * @returns a cost that no order is below, at the same price; and the size of the tables in bytes
 */
export function lowerBound(
  clusters: readonly Cluster[],
  price: Price,
  found: number,
): { bound: number; bytes: number } {
  const priced = clusters.map((cluster) => pricedAt(cluster, price));
  const count = 1 + Math.max(...clusters.flatMap(({ stems }) => stems));
  spread(priced, count);
  let [best, pace, idle] = [0, 1, 0];
  for (let round = 0; round < rounds; round += 1) {
    const parts = priced.map(leastOf);
    const bound = parts.reduce((sum, { cost }) => sum + cost, 0);
    if (bound > best + 1e-9) [best, idle] = [bound, 0];
    else idle += 1;
    if (found - best <= 1e-9) break;
    if (idle >= 8) [pace, idle] = [pace / 2, 0];
    move(
      priced,
      parts.map(({ slopes }) => slopes),
      pace * (found - bound),
      count,
    );
  }
  const bytes = priced.reduce((sum, { costs, may }) => sum + costs.byteLength + may.byteLength, 0);
  const chances = clusters.flatMap(({ tables }) => tables.flat());
  // Weights sum to 1 but for rounding, which 1e-9 covers amply.
  return {
    bound: Math.max(0, best - 1e-9),
    bytes: chances.reduce((sum, table) => sum + tableBytes(table), bytes),
  };
}

/**
 * Two around every stem: those that it and they stand in the way of most, and those that it stands in the way of most, or they in its.
 * Every stem is in one.
 */
export function clustersOf(task: Task): Cluster[] {
  const all = [...task.options.keys()];
  const size = Math.min(clusterSize, all.length);
  const pairs = pairCosts(task, hangUpsAlone, aimsOf(task)(hangUpsAlone));
  const tie = (a: number, b: number): number => {
    const [one, other] = [pairs[a]?.[b] ?? 0, pairs[b]?.[a] ?? 0];
    return Math.min(one, other) + 0.1 * Math.max(one, other);
  };
  const grown = all.map((seed) => {
    const stems = [seed];
    while (stems.length < size) {
      let [next, most] = [-1, -1];
      for (const stem of all) {
        if (stems.includes(stem)) continue;
        const strength = stems.reduce((sum, other) => sum + tie(stem, other), 0);
        if (strength > most) [next, most] = [stem, strength];
      }
      stems.push(next);
    }
    return stems;
  });
  const around = all.map((seed) => {
    const others = all.filter((stem) => stem !== seed);
    return [seed, ...others.sort((a, b) => tie(seed, b) - tie(seed, a)).slice(0, size - 1)];
  });
  const chosen = new Map(
    [...grown, ...around].map((stems) => {
      stems.sort((a, b) => a - b);
      return [stems.join(), stems];
    }),
  );
  return [...chosen.values()].map((stems) => clusterOf(task, stems));
}

function clusterOf(task: Task, stems: readonly number[]): Cluster {
  const part = partOf({ ...task, places: [] }, stems, new Uint8Array(task.options.length));
  const turns = turnsOf(part);
  const may = Int32Array.from({ length: 2 ** stems.length }, (_, set) => {
    const place = stems.length - countBits(set);
    return stems.reduce((all, __, stem) => {
      const bit = 1 << stem;
      return (set & bit) !== 0 && mayFall(turns, stem, set, place) ? all | bit : all;
    }, 0);
  });
  return { stems, part, tables: tablesOf(part), may };
}

function pricedAt({ stems, part, tables, may }: Cluster, price: Price): Priced {
  const size = stems.length;
  const costs = new Float64Array(may.length * size);
  cheapest(part, tables, price).forEach((own, stem) => {
    for (let set = 0; set < may.length; set += 1)
      if (((may[set] as number) >> stem) & 1) costs[set * size + stem] = own[set ^ (1 << stem)] as number;
  });
  return { stems, costs, may, weights: new Float64Array(size) };
}

/** Equal weights over the clusters that hold a stem. */
function spread(clusters: readonly Priced[], count: number): void {
  const held = new Float64Array(count);
  for (const { stems } of clusters) for (const stem of stems) held[stem] = (held[stem] ?? 0) + 1;
  for (const { stems, weights } of clusters)
    stems.forEach((stem, at) => {
      weights[at] = 1 / (held[stem] ?? 1);
    });
}

/** The least cost of a cluster as weighted, and by stem what it costs there without its weight. */
function leastOf({ costs, may, weights }: Priced): { cost: number; slopes: Float64Array } {
  const size = weights.length;
  const sets = may.length;
  const least = new Float64Array(sets);
  const by = new Uint8Array(sets);
  for (let set = 1; set < sets; set += 1) {
    let best = Number.POSITIVE_INFINITY;
    for (let left = may[set] as number; left !== 0; left &= left - 1) {
      const stem = 31 - Math.clz32(left & -left);
      const sum =
        (weights[stem] as number) * (costs[set * size + stem] as number) +
        (least[set ^ (1 << stem)] as number);
      if (sum < best) {
        best = sum;
        by[set] = stem;
      }
    }
    least[set] = best;
  }
  const slopes = new Float64Array(size);
  const cost = least[sets - 1] as number;
  for (let set = sets - 1; set !== 0 && cost < Number.POSITIVE_INFINITY; ) {
    const stem = by[set] as number;
    slopes[stem] = costs[set * size + stem] as number;
    set ^= 1 << stem;
  }
  return { cost, slopes };
}

/** No weight is quite 0, for 0 × Infinity is no number. */
const smallest = 1e-9;

/** Moves weights uphill by `rise` over the square of the slope, and brings those of each stem back to a sum of 1. */
function move(
  clusters: readonly Priced[],
  slopes: readonly Float64Array[],
  rise: number,
  count: number,
): void {
  const held: { weights: Float64Array; at: number; slope: number }[][] = Array.from(
    { length: count },
    () => [],
  );
  clusters.forEach(({ stems, weights }, cluster) => {
    stems.forEach((stem, at) => {
      held[stem]?.push({ weights, at, slope: slopes[cluster]?.[at] ?? 0 });
    });
  });
  let square = 0;
  for (const own of held) {
    const mean = own.reduce((sum, { slope }) => sum + slope, 0) / own.length;
    for (const one of own) {
      one.slope -= mean;
      square += one.slope * one.slope;
    }
  }
  if (square < 1e-18) return;
  for (const own of held) {
    const wanted = own.map(({ weights, at, slope }) => (weights[at] as number) + (rise / square) * slope);
    onSimplex(wanted).forEach((weight, number) => {
      const { weights, at } = own[number] ?? { weights: new Float64Array(1), at: 0 };
      weights[at] = weight;
    });
  }
}

/** The nearest weights that are at least `smallest` and sum to 1. */
function onSimplex(wanted: readonly number[]): number[] {
  const room = 1 - smallest * wanted.length;
  const sorted = wanted.toSorted((a, b) => b - a);
  let [sum, shift] = [0, 0];
  sorted.forEach((value, at) => {
    sum += value;
    const candidate = (sum - room) / (at + 1);
    if (value > candidate) shift = candidate;
  });
  return wanted.map((value) => Math.max(0, value - shift) + smallest);
}
