// An order for more than 16 stems: a greedy start, then annealing. It gives no proof; bound.ts says how far from the best it
// can be. It counts steps, not time, so that the same group gives the same order everywhere.
import { annealed } from './anneal.ts';
import { type Aimed, aimsOf, type CheapestAim, pairCosts } from './costs.ts';
import type { Fall } from './lagrange.ts';
import { canFall } from './reachable.ts';
import type { Price } from './tables.ts';
import type { Task } from './task.ts';

/** Moves tried for each stem when an order is looked for, and when one that is known is put right for another price. */
const thorough = 600;
const brief = 150;

export type Ordered = Readonly<{ falls: readonly Fall[]; hangUps: number; loss: number; cost: number }>;

/** Looks for orders of a task, whose aims are laid out once for all prices. */
export type Search = Readonly<{
  /** An order at a price, or none where the search found none that keeps the settled places. */
  found: (price: Price) => Ordered | undefined;
  /** An order put right for another price. Never dearer at it than what it starts from. */
  improved: (start: Ordered, price: Price) => Ordered;
}>;

export function searchOf(task: Task): Search {
  const cheapestAt = aimsOf(task);
  const rearranged = (start: Ordered, cheapest: CheapestAim, tries: number): Ordered => {
    const order = start.falls.map(({ stem }) => stem);
    return aimed(task, annealed(task, order, cheapest, tries), cheapest) ?? start;
  };
  return {
    found: (price) => {
      const cheapest = cheapestAt(price);
      const pairs = pairCosts(task, price, cheapest);
      const starts = [0, 0.5, 1].flatMap((relief) => greedyOrder(task, cheapest, pairs, relief) ?? []);
      const start = starts.sort((a, b) => a.cost - b.cost)[0];
      return start && rearranged(start, cheapest, thorough);
    },
    improved: (start, price) => rearranged(start, cheapestAt(price), brief),
  };
}

/**
 * Always the stem that is cheapest now, less a share of what its fall spares the others.
 *
 * @param relief the share, 0 to 1
 */
function greedyOrder(
  task: Task,
  cheapest: CheapestAim,
  pairs: readonly Float64Array[],
  relief: number,
): Ordered | undefined {
  const count = task.options.length;
  const standing = new Uint8Array(count).fill(1);
  const order: number[] = [];
  for (let place = 0; place < count; place += 1) {
    const stem = nextOf(task, standing, place, (one) => {
      const cost = cheapest(one, standing)?.cost ?? Number.POSITIVE_INFINITY;
      return cost - relief * sparedBy(one, standing, pairs);
    });
    if (stem < 0) return undefined;
    standing[stem] = 0;
    order.push(stem);
  }
  return aimed(task, order, cheapest);
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
function aimed(task: Task, order: readonly number[], cheapest: CheapestAim): Ordered | undefined {
  const standing = new Uint8Array(task.options.length).fill(1);
  const aims: Aimed[] = [];
  for (const stem of order) {
    standing[stem] = 0;
    const aim = cheapest(stem, standing);
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
