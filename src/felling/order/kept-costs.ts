// What each stem of an order costs at its place, kept up while stems change places. A cost depends only on which of the
// stems in its way come later, and the same sets come up again and again, so that each is worked out once.
import { type CheapestAim, inTheWay } from './costs.ts';
import type { Task } from './task.ts';

/** Costs kept for each stem and second number; beyond, they are forgotten and worked out again. */
const mostKept = 4_000;
/** How many stems one number tells apart exactly. Two numbers are kept for each stem. */
const width = 52;

export type KeptCosts = {
  /** Of the order as it is; Infinity where a stem has no aim within the limit. */
  readonly sum: number;
  /**
   * Takes in that the stem at place `from` of the order now stands at place `to`.
   *
   * @returns false, with everything as before, where that makes the order dearer than allowed
   */
  readonly moved: (from: number, to: number, allowed: number) => boolean;
};

type Stem = Readonly<{
  /** By stem: its bit in the first and in the second number, 0 where it is not in the way. */
  bits: readonly [Float64Array, Float64Array];
  /** By second number, which few stems need, then by first; none where more are in the way than two numbers tell apart. */
  kept: Map<number, Map<number, number>> | undefined;
}>;

/** @param order read as it is at the time; the caller moves stems in it and says so */
export function keptCosts(task: Task, order: readonly number[], cheapest: CheapestAim): KeptCosts {
  const count = order.length;
  const stems = task.options.map((_, stem) => stemOf(inTheWay(task, stem), count));
  const standing = new Uint8Array(count);
  // By stem, as they are; by place, as they would be after a move.
  const now = { keys: [new Float64Array(count), new Float64Array(count)], costs: new Float64Array(count) };
  const then = { keys: [new Float64Array(count), new Float64Array(count)], costs: new Float64Array(count) };
  const [first, second] = now.keys as [Float64Array, Float64Array];
  const [firstThen, secondThen] = then.keys as [Float64Array, Float64Array];

  const costAt = (stem: number, place: number, one: number, other: number): number => {
    const { kept } = stems[stem] as Stem;
    let byFirst = kept?.get(other);
    const known = byFirst?.get(one);
    if (known !== undefined) return known;
    for (let later = place + 1; later < count; later += 1) standing[order[later] as number] = 1;
    const cost = cheapest(stem, standing)?.cost ?? Number.POSITIVE_INFINITY;
    standing.fill(0);
    if (kept === undefined) return cost;
    if (byFirst === undefined) {
      byFirst = new Map();
      kept.set(other, byFirst);
    }
    if (byFirst.size >= mostKept) byFirst.clear();
    byFirst.set(one, cost);
    return cost;
  };

  let sum = 0;
  order.forEach((stem, place) => {
    const { bits } = stems[stem] as Stem;
    for (let later = place + 1; later < count; later += 1) {
      first[stem] = (first[stem] as number) + (bits[0][order[later] as number] as number);
      second[stem] = (second[stem] as number) + (bits[1][order[later] as number] as number);
    }
    now.costs[stem] = costAt(stem, place, first[stem] as number, second[stem] as number);
    sum += now.costs[stem] as number;
  });

  return {
    get sum() {
      return sum;
    },
    moved: (from, to, allowed) => {
      const mover = order[to] as number;
      const own = stems[mover] as Stem;
      // What it passed now comes before it where it went to the end, and it stands while they fall.
      const sign = from < to ? 1 : -1;
      let [one, other] = [first[mover] as number, second[mover] as number];
      let more = 0;
      for (let place = from; place !== to; place += sign) {
        const stem = order[place] as number;
        const { bits, kept } = stems[stem] as Stem;
        one -= sign * (own.bits[0][stem] as number);
        other -= sign * (own.bits[1][stem] as number);
        const [a, b] = [bits[0][mover] as number, bits[1][mover] as number];
        firstThen[place] = (first[stem] as number) + sign * a;
        secondThen[place] = (second[stem] as number) + sign * b;
        const cost =
          a === 0 && b === 0 && kept !== undefined
            ? (now.costs[stem] as number)
            : costAt(stem, place, firstThen[place] as number, secondThen[place] as number);
        then.costs[place] = cost;
        more += cost - (now.costs[stem] as number);
        if (more === Number.POSITIVE_INFINITY) return false;
      }
      firstThen[to] = one;
      secondThen[to] = other;
      then.costs[to] = costAt(mover, to, one, other);
      more += (then.costs[to] as number) - (now.costs[mover] as number);
      if (!(more <= allowed)) return false;
      for (let place = Math.min(from, to); place <= Math.max(from, to); place += 1) {
        const stem = order[place] as number;
        first[stem] = firstThen[place] as number;
        second[stem] = secondThen[place] as number;
        now.costs[stem] = then.costs[place] as number;
      }
      sum += more;
      return true;
    },
  };
}

function stemOf(inWay: readonly number[], count: number): Stem {
  const bits = [new Float64Array(count), new Float64Array(count)] as const;
  inWay.slice(0, 2 * width).forEach((other, slot) => {
    (bits[slot < width ? 0 : 1] as Float64Array)[other] = 2 ** (slot % width);
  });
  return { bits, kept: inWay.length > 2 * width ? undefined : new Map() };
}
