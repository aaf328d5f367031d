// A bound below the cost of every order of a large group.
//
// Let C be some of the stems. In any order, when stem i of C falls while S stands, it costs at least what it costs while
// only those of C stand, for nothing gets dearer when something else comes down; and an aim within the limit stays within it. The order,
// restricted to C, is one of the orders of C. Give each stem weights that sum to 1 over the clusters that hold it:
// cost(i, S) = sum over C of w(i, C) × cost(i, S) ≥ sum over C of w(i, C) × cost(i, S ∩ C). Summed over the stems, the cost of
// the order is at least the sum over clusters of the least cost of any order of the cluster with its costs so
// weighted, and that least is found exactly by the dynamic programme. It holds for every choice of weights; looking for good ones
// (a subgradient ascent) only makes the bound better. Pairs are the smallest clusters.
import { pairCosts } from './costs.ts';
import { tablesOf } from './exact.ts';
import { leastToGo, orderOf, type Turns, turnsOf } from './subsets.ts';
import { cheapest, type Price } from './tables.ts';
import { partOf, type Task } from './task.ts';

type Cluster = {
  stems: readonly number[];
  costs: readonly Float64Array[];
  turns: Turns;
  weights: Float64Array;
};

/** How many stems a cluster has, and how many times weights are changed. */
const clusterSize = 11;
const rounds = 150;

/**
 * @param found the cost of a known order, which sets how far weights move
 * @returns a cost that no order is below, at the same price; and the size of the tables in bytes
 */
export function lowerBound(task: Task, price: Price, found: number): { bound: number; bytes: number } {
  const clusters = clustersOf(task, price);
  spread(clusters, task.options.length);
  let [best, pace, idle] = [0, 1, 0];
  for (let round = 0; round < rounds; round += 1) {
    const parts = clusters.map(leastOf);
    const bound = parts.reduce((sum, { cost }) => sum + cost, 0);
    if (bound > best + 1e-9) [best, idle] = [bound, 0];
    else idle += 1;
    if (found - best <= 1e-9) break;
    if (idle >= 8) [pace, idle] = [pace / 2, 0];
    move(
      clusters,
      parts.map(({ slopes }) => slopes),
      pace * (found - bound),
      task.options.length,
    );
  }
  const bytes = clusters.reduce(
    (sum, { costs }) => sum + costs.reduce((all, { byteLength }) => all + byteLength, 0),
    0,
  );
  // Weights sum to 1 but for rounding, which 1e-9 covers amply.
  return { bound: Math.max(0, best - 1e-9), bytes };
}

/** Around every stem those that it and they stand in the way of most. */
function clustersOf(task: Task, price: Price): Cluster[] {
  const count = task.options.length;
  const pairs = pairCosts(task, price);
  const tie = (a: number, b: number): number => {
    const [one, other] = [pairs[a]?.[b] ?? 0, pairs[b]?.[a] ?? 0];
    return Math.min(one, other) + 0.1 * Math.max(one, other);
  };
  const chosen = new Map<string, number[]>();
  for (let seed = 0; seed < count; seed += 1) {
    const stems = [seed];
    while (stems.length < Math.min(clusterSize, count)) {
      let [next, most] = [-1, -1];
      for (let stem = 0; stem < count; stem += 1) {
        if (stems.includes(stem)) continue;
        const strength = stems.reduce((sum, other) => sum + tie(stem, other), 0);
        if (strength > most) [next, most] = [stem, strength];
      }
      stems.push(next);
    }
    stems.sort((a, b) => a - b);
    chosen.set(stems.join(), stems);
  }
  return [...chosen.values()].map((stems) => clusterOf(task, price, stems));
}

function clusterOf(task: Task, price: Price, stems: number[]): Cluster {
  const part = partOf({ ...task, places: [] }, stems, new Uint8Array(task.options.length));
  const costs = cheapest(part, tablesOf(part), price);
  return { stems, costs, turns: turnsOf(part), weights: new Float64Array(stems.length) };
}

/** Equal weights over the clusters that hold a stem. */
function spread(clusters: readonly Cluster[], count: number): void {
  const held = new Float64Array(count);
  for (const { stems } of clusters) for (const stem of stems) held[stem] = (held[stem] ?? 0) + 1;
  for (const { stems, weights } of clusters)
    stems.forEach((stem, at) => {
      weights[at] = 1 / (held[stem] ?? 1);
    });
}

/** The least cost of a cluster as weighted, and by stem what it costs there without its weight. */
function leastOf({ costs, turns, weights }: Cluster): { cost: number; slopes: Float64Array } {
  const weighted = costs.map((own, at) => {
    const weight = weights[at] as number;
    return own.map((cost) => weight * cost);
  });
  const least = leastToGo(weighted, turns);
  const slopes = new Float64Array(turns.size);
  let set = least.length - 1;
  for (const stem of orderOf(weighted, turns, least) ?? []) {
    set ^= 1 << stem;
    slopes[stem] = (costs[stem] as Float64Array)[set] as number;
  }
  return { cost: least[least.length - 1] as number, slopes };
}

/** No weight is quite 0, for 0 × Infinity is no number. */
const smallest = 1e-9;

/** Moves weights uphill by `rise` over the square of the slope, and brings those of each stem back to a sum of 1. */
function move(
  clusters: readonly Cluster[],
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
