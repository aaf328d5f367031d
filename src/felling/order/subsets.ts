// The least sum over a whole order, for every set of stems still standing: the dynamic programme over sets. Sets are bits of
// an integer; at most 16 stems.
import type { Task } from './task.ts';

/** What may fall when: for each stem the set that has to be down before it and its settled place, for each place its stem; -1 is none. */
export type Turns = Readonly<{ waits: Int32Array; places: Int32Array; owners: Int32Array; size: number }>;

export function turnsOf({ options, waits, places }: Pick<Task, 'options' | 'waits' | 'places'>): Turns {
  const owners = new Int32Array(options.length).fill(-1);
  places.forEach((place, stem) => {
    if (place !== undefined) owners[place] = stem;
  });
  return {
    size: options.length,
    owners,
    waits: Int32Array.from(waits, (others) => others.reduce((set, other) => set | (1 << other), 0)),
    places: Int32Array.from(places, (place) => place ?? -1),
  };
}

/** Whether a stem of a set may be the next of it to fall. `place` is how many are down. */
export function mayFall({ waits, places, owners }: Turns, stem: number, set: number, place: number): boolean {
  if (((waits[stem] as number) & set) !== 0) return false;
  const owner = owners[place] as number;
  return owner < 0 ? (places[stem] as number) < 0 : owner === stem;
}

export function countBits(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

/** By set still standing: the least sum to fell all of it; Infinity where no order does. */
export function leastToGo(costs: readonly Float64Array[], turns: Turns): Float64Array {
  const { size } = turns;
  const least = new Float64Array(2 ** size).fill(Number.POSITIVE_INFINITY);
  least[0] = 0;
  for (let set = 1; set < least.length; set += 1) {
    const place = size - countBits(set);
    let best = Number.POSITIVE_INFINITY;
    for (let stem = 0; stem < size; stem += 1) {
      const bit = 1 << stem;
      if ((set & bit) === 0 || !mayFall(turns, stem, set, place)) continue;
      const rest = set ^ bit;
      const sum = ((costs[stem] as Float64Array)[rest] as number) + (least[rest] as number);
      if (sum < best) best = sum;
    }
    least[set] = best;
  }
  return least;
}

/** By set still standing: the least sum by which it is reached from all standing; Infinity where no order does. */
export function leastSoFar(costs: readonly Float64Array[], turns: Turns): Float64Array {
  const { size } = turns;
  const least = new Float64Array(2 ** size).fill(Number.POSITIVE_INFINITY);
  least[least.length - 1] = 0;
  for (let set = least.length - 1; set > 0; set -= 1) {
    const here = least[set] as number;
    if (here === Number.POSITIVE_INFINITY) continue;
    const place = size - countBits(set);
    for (let stem = 0; stem < size; stem += 1) {
      const bit = 1 << stem;
      if ((set & bit) === 0 || !mayFall(turns, stem, set, place)) continue;
      const rest = set ^ bit;
      const sum = here + ((costs[stem] as Float64Array)[rest] as number);
      if (sum < (least[rest] as number)) least[rest] = sum;
    }
  }
  return least;
}

/**
 * An order with the least sum, the smaller number first where two are equal; none where there is no order.
 *
 * @param least as `leastToGo` gives it for the same costs
 */
export function orderOf(
  costs: readonly Float64Array[],
  turns: Turns,
  least: Float64Array,
): number[] | undefined {
  const order: number[] = [];
  let set = least.length - 1;
  if (least[set] === Number.POSITIVE_INFINITY) return undefined;
  while (set !== 0) {
    const stem = nextOf(costs, turns, least, set, order.length);
    if (stem === undefined) return undefined;
    order.push(stem);
    set ^= 1 << stem;
  }
  return order;
}

function nextOf(
  costs: readonly Float64Array[],
  turns: Turns,
  least: Float64Array,
  set: number,
  place: number,
): number | undefined {
  for (let stem = 0; stem < turns.size; stem += 1) {
    const bit = 1 << stem;
    if ((set & bit) === 0 || !mayFall(turns, stem, set, place)) continue;
    const rest = set ^ bit;
    if (((costs[stem] as Float64Array)[rest] as number) + (least[rest] as number) === least[set]) return stem;
  }
  return undefined;
}
