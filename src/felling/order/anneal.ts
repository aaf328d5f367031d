// A better order for a large group by simulated annealing (Kirkpatrick, Gelatt and Vecchi 1983, Science 220:671–680): stems
// change places at random; what makes the order dearer is kept too, ever less often. It draws from a seed and
// counts steps, so that the same group gives the same order everywhere.
import type { CheapestAim } from './costs.ts';
import { keptCosts } from './kept-costs.ts';
import { seeded } from './random.ts';
import type { Task } from './task.ts';

/** How far a stem moves at most, in places, and what is accepted at first, as a share of the mean cost of a stem. */
const farthest = 12;
const warmth = 0.3;

/**
 * @param start an order that keeps what is settled, each fall within the limit
 * @param triesPerStem how many moves are tried, for each stem
 * @returns one that keeps it too and is not dearer
 */
export function annealed(
  task: Task,
  start: readonly number[],
  cheapest: CheapestAim,
  triesPerStem: number,
): number[] {
  const count = start.length;
  const random = seeded(count);
  const order = start.slice();
  const costs = keptCosts(task, order, cheapest);
  let [best, least] = [order.slice(), costs.sum];
  const tries = triesPerStem * count;
  const warm = (warmth * costs.sum) / count;
  for (let at = 0; at < tries; at += 1) {
    const from = Math.floor(random() * count);
    const span = 1 + Math.floor(random() * farthest);
    const to = random() < 0.5 ? from - span : from + span;
    const allowed = -warm * (1 - at / tries) * Math.log(1 - random());
    if (to < 0 || to >= count || !mayMove(task, order, from, to)) continue;
    shift(order, from, to);
    if (!costs.moved(from, to, allowed)) shift(order, to, from);
    else if (costs.sum < least - 1e-9) [best, least] = [order.slice(), costs.sum];
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

function shift(order: number[], from: number, to: number): void {
  const moved = order[from] as number;
  const step = from < to ? 1 : -1;
  for (let place = from; place !== to; place += step) order[place] = order[place + step] as number;
  order[to] = moved;
}
