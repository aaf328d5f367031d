// An order for more than 16 stems: a greedy start, then stretches of it put right exactly, again and again, until none
// gets better. It gives no proof; bound.ts says how far from the best it can be. It counts steps, not time, so that the same group
// gives the same order everywhere.
import { type Aimed, cheapestAim, pairCosts } from './costs.ts';
import { cheapestPlan } from './exact.ts';
import type { Fall } from './lagrange.ts';
import { canFall } from './reachable.ts';
import type { Price } from './tables.ts';
import { partOf, type Task } from './task.ts';

/** How many stems of a stretch are put in order exactly, how far the stretch moves on, and how often over the whole order. */
const stretch = 11;
const stride = 4;
const passes = 12;

export type Ordered = Readonly<{ falls: readonly Fall[]; hangUps: number; loss: number; cost: number }>;

/** An order at a price, or none where the search found none that keeps the settled places. */
export function searchedOrder(task: Task, price: Price): Ordered | undefined {
  const pairs = pairCosts(task, price);
  let best: Ordered | undefined;
  for (const relief of [0, 0.5, 1]) {
    const start = greedyOrder(task, price, pairs, relief);
    const found = start && improved(task, start, price);
    if (found && (best === undefined || found.cost < best.cost - 1e-12)) best = found;
  }
  return best;
}

/**
 * Always the stem that is cheapest now, less a share of what its fall spares the others.
 *
 * @param relief the share, 0 to 1
 */
function greedyOrder(
  task: Task,
  price: Price,
  pairs: readonly Float64Array[],
  relief: number,
): Ordered | undefined {
  const count = task.options.length;
  const standing = new Uint8Array(count).fill(1);
  const order: number[] = [];
  for (let place = 0; place < count; place += 1) {
    const stem = nextOf(task, standing, place, (one) => {
      const cost = cheapestAim(task, one, standing, price)?.cost ?? Number.POSITIVE_INFINITY;
      return cost - relief * sparedBy(one, standing, pairs);
    });
    if (stem < 0) return undefined;
    standing[stem] = 0;
    order.push(stem);
  }
  return aimed(task, order, price);
}

/** The stem with the least score of those that may fall now, or -1. It counts as down while its score is asked for. */
function nextOf(task: Task, standing: Uint8Array, place: number, score: (stem: number) => number): number {
  const settled = task.places.indexOf(place);
  let [best, least] = [-1, Number.POSITIVE_INFINITY];
  for (let stem = 0; stem < standing.length; stem += 1) {
    const isTurn = settled >= 0 ? stem === settled : task.places[stem] === undefined;
    if (standing[stem] === 0 || !isTurn) continue;
    standing[stem] = 0;
    const own = canFall(task, stem, standing) ? score(stem) : Number.POSITIVE_INFINITY;
    standing[stem] = 1;
    if (own < least) [best, least] = [stem, own];
  }
  return best;
}

function sparedBy(stem: number, standing: Uint8Array, pairs: readonly Float64Array[]): number {
  let spared = 0;
  for (let other = 0; other < standing.length; other += 1) {
    if (standing[other] === 1) spared += pairs[other]?.[stem] ?? 0;
  }
  return spared;
}

/** The cheapest aims of an order; none where a stem has none within the limit at its place. */
function aimed(task: Task, order: readonly number[], price: Price): Ordered | undefined {
  const standing = new Uint8Array(task.options.length).fill(1);
  const aims: Aimed[] = [];
  for (const stem of order) {
    standing[stem] = 0;
    const aim = cheapestAim(task, stem, standing, price);
    if (aim === undefined) return undefined;
    aims.push(aim);
  }
  const sum = (of: (aim: Aimed) => number): number => aims.reduce((all, aim) => all + of(aim), 0);
  return {
    falls: order.map((stem, place) => ({ stem, option: aims[place]?.option ?? 0 })),
    hangUps: sum(({ hangUp }) => hangUp),
    loss: sum(({ loss }) => loss),
    cost: sum(({ cost }) => cost),
  };
}

/** Puts stretches of an order right exactly until none gets better. Never dearer than what it starts from. */
export function improved(task: Task, start: Ordered, price: Price): Ordered {
  const order = start.falls.map(({ stem }) => stem);
  const length = Math.min(stretch, order.length);
  // A stretch needs no second look while neither its stems nor their order nor what stands after it has changed.
  const settled = new Set<string>();
  for (let pass = 0; pass < passes; pass += 1) {
    let changed = false;
    for (let from = 0; from < order.length; from += stride) {
      const at = Math.min(from, order.length - length);
      const before = order.slice(at, at + length);
      const key = `${before.join()}|${order
        .slice(at + length)
        .sort((a, b) => a - b)
        .join()}`;
      if (settled.has(key)) continue;
      const after = reordered(task, order, at, length, price);
      settled.add(key);
      if (after.every((stem, place) => stem === before[place])) continue;
      order.splice(at, length, ...after);
      changed = true;
    }
    if (!changed) break;
  }
  return aimed(task, order, price) ?? start;
}

function reordered(task: Task, order: readonly number[], at: number, length: number, price: Price): number[] {
  const before = order.slice(at, at + length);
  const kept = before.toSorted((a, b) => a - b);
  const standing = new Uint8Array(task.options.length);
  for (const stem of order.slice(at + length)) standing[stem] = 1;
  const part = partOf(task, kept, standing, at);
  const plan = cheapestPlan(part, price);
  if (plan === undefined) return before;
  const now =
    aimed(
      part,
      before.map((stem) => kept.indexOf(stem)),
      price,
    )?.cost ?? Number.POSITIVE_INFINITY;
  return plan.cost < now - 1e-9 ? plan.falls.map(({ stem }) => kept[stem] ?? 0) : before;
}
