// A better order for a large group by simulated annealing (Kirkpatrick, Gelatt and Vecchi 1983, Science 220:671–680): stems
// change places at random; what makes the order dearer is kept too, ever less often. It draws from a seed and
// counts steps, so that the same group gives the same order everywhere.
import { cheapestAims, inTheWay } from './costs.ts';
import { seeded } from './random.ts';
import type { Price } from './tables.ts';
import type { Task } from './task.ts';

/** How far a stem moves at most, in places, and what is accepted at first, as a share of the mean cost of a stem. */
const farthest = 12;
const warmth = 0.3;
/** Costs kept for each stem; beyond, they are forgotten and computed again. */
const mostKept = 50_000;

/** The least cost of a stem at its place, by which of the stems in its way come after it. */
type CostAt = (stem: number, places: Int32Array) => number;

/**
 * @param start an order that keeps what is settled, each fall within the limit
 * @param triesPerStem how many moves are tried, for each stem
 * @returns one that keeps it too and is not dearer
 */
export function annealed(task: Task, start: readonly number[], price: Price, triesPerStem: number): number[] {
  const count = start.length;
  const random = seeded(count);
  const costAt = costsOf(task, price);
  const order = start.slice();
  const places = new Int32Array(count);
  order.forEach((stem, place) => {
    places[stem] = place;
  });
  const costs = Float64Array.from({ length: count }, (_, stem) => costAt(stem, places));
  let cost = costs.reduce((sum, one) => sum + one, 0);
  let [best, least] = [order.slice(), cost];
  const tries = triesPerStem * count;
  const warm = (warmth * cost) / count;
  const fresh = new Float64Array(count);
  for (let at = 0; at < tries; at += 1) {
    const from = Math.floor(random() * count);
    const span = 1 + Math.floor(random() * farthest);
    const to = random() < 0.5 ? from - span : from + span;
    const allowed = -warm * (1 - at / tries) * Math.log(1 - random());
    if (to < 0 || to >= count || !mayMove(task, order, from, to)) continue;
    shift(order, places, from, to);
    const [low, high] = from < to ? [from, to] : [to, from];
    let more = 0;
    for (let place = low; place <= high && more < Number.POSITIVE_INFINITY; place += 1) {
      const stem = order[place] as number;
      fresh[place] = costAt(stem, places);
      more += (fresh[place] as number) - (costs[stem] as number);
    }
    if (!(more <= allowed)) {
      shift(order, places, to, from);
      continue;
    }
    for (let place = low; place <= high; place += 1) costs[order[place] as number] = fresh[place] as number;
    cost += more;
    if (cost < least - 1e-9) [best, least] = [order.slice(), cost];
  }
  return best;
}

/** Whether a stem may change its place: nothing settled moves, and nothing that waits comes before what it waits for. */
function mayMove({ waits, places }: Task, order: readonly number[], from: number, to: number): boolean {
  const moved = order[from] as number;
  const step = from < to ? 1 : -1;
  if (places[moved] !== undefined) return false;
  for (let place = from + step; place !== to + step; place += step) {
    const other = order[place] as number;
    if (places[other] !== undefined) return false;
    const [later, earlier] = step > 0 ? [other, moved] : [moved, other];
    if (waits[later]?.includes(earlier)) return false;
  }
  return true;
}

function shift(order: number[], places: Int32Array, from: number, to: number): void {
  const moved = order[from] as number;
  const step = from < to ? 1 : -1;
  for (let place = from; place !== to; place += step) {
    const next = order[place + step] as number;
    order[place] = next;
    places[next] = place;
  }
  order[to] = moved;
  places[moved] = to;
}

/** Infinity where no aim is within the limit. */
function costsOf(task: Task, price: Price): CostAt {
  const standing = new Uint8Array(task.options.length);
  const cheapest = cheapestAims(task, price);
  const stems = task.options.map((_, stem) => ({
    inWay: inTheWay(task, stem),
    kept: new Map<number | string, number>(),
  }));
  return (stem, places) => {
    const { inWay, kept } = stems[stem] as (typeof stems)[number];
    const own = places[stem] as number;
    let key: number | string = keyOf(inWay, places, own, 0);
    // A number holds 52 of them exactly.
    for (let from = 52; from < inWay.length; from += 52) key = `${key} ${keyOf(inWay, places, own, from)}`;
    const known = kept.get(key);
    if (known !== undefined) return known;
    for (const other of inWay) standing[other] = (places[other] as number) > own ? 1 : 0;
    const cost = cheapest(stem, standing)?.cost ?? Number.POSITIVE_INFINITY;
    if (kept.size >= mostKept) kept.clear();
    kept.set(key, cost);
    return cost;
  };
}

/** Which of up to 52 stems in the way come after a place, as one number. */
function keyOf(inWay: readonly number[], places: Int32Array, own: number, from: number): number {
  let key = 0;
  for (let at = from, end = Math.min(inWay.length, from + 52); at < end; at += 1)
    key = 2 * key + ((places[inWay[at] as number] as number) > own ? 1 : 0);
  return key;
}
