// A plan for more than 16 stems, by search, with a bound on each level that says how far from the best it can be.
import { clustersOf, lowerBound } from './bound.ts';
import type { Found } from './exact.ts';
import type { Fall } from './lagrange.ts';
import { type Ordered, type Search, searchOf } from './search.ts';
import { hangUpOf, type Task } from './task.ts';

/** What a hang-up is worth in saplings when the search for less loss begins, by how much that is changed, and how often. */
const firstPrice = 64;
const factor = 4;
const steps = 5;
/** Prices at which the loss is bounded, as shares of the one at which the search spent its budget: the best one lies below it. */
const shares = [0.6, 0.3, 0.15];

export type FoundLarge = Found & Readonly<{ hangUpBound: number }>;

/** @returns none where the search met no order that keeps the settled places */
export function searchedPlan(task: Task, tolerance: number): FoundLarge | undefined {
  const search = searchOf(task);
  const start = search.found({ hangUp: 1, loss: 0 });
  if (start === undefined) return undefined;
  const clusters = clustersOf(task);
  const least = lowerBound(clusters, { hangUp: 1, loss: 0 }, start.hangUps);
  const budget = start.hangUps + tolerance;
  const { best, price } = lessLoss(search, start, budget);
  const falls = filled(task, best.falls, budget);
  const loss = lossOf(task, falls);
  const below = shares.map((share) => {
    const worth = share * price;
    const { bound } = lowerBound(clusters, { hangUp: worth, loss: 1 }, loss + worth * budget);
    return bound - worth * budget;
  });
  return {
    falls,
    leastHangUps: start.hangUps,
    hangUpBound: least.bound,
    lossBound: Math.max(0, ...below),
    bytes: least.bytes,
  };
}

/** Closes in on the lowest price of a hang-up at which the order found stays within the budget. */
function lessLoss(search: Search, start: Ordered, budget: number): { best: Ordered; price: number } {
  let best = start;
  let [over, under] = [0, Number.POSITIVE_INFINITY];
  let from = start;
  let price = firstPrice;
  for (let step = 0; step < steps; step += 1) {
    const found = search.improved(from, { hangUp: price, loss: 1 });
    if (found.hangUps <= budget) {
      under = price;
      from = found;
      if (found.loss < best.loss) best = found;
    } else over = price;
    if (over === 0) price = under / factor;
    else price = under === Number.POSITIVE_INFINITY ? over * factor : Math.sqrt(over * under);
  }
  return { best, price: under === Number.POSITIVE_INFINITY ? over : under };
}

/** Spends what is left of the budget on aims with less loss, the most loss for each hang-up first; the order stays. */
function filled(task: Task, falls: readonly Fall[], budget: number): Fall[] {
  const standing = new Uint8Array(task.options.length).fill(1);
  const chances = falls.map(({ stem }) => {
    standing[stem] = 0;
    return (task.options[stem] ?? []).map((option) => hangUpOf(option, standing));
  });
  const filling = falls.map((fall) => ({ ...fall }));
  const chanceNow = (place: number): number => chances[place]?.[filling[place]?.option ?? 0] ?? 0;
  let slack = budget - filling.reduce((sum, _, place) => sum + chanceNow(place), 0);
  for (;;) {
    let best: { place: number; option: number; more: number } | undefined;
    let most = 0;
    filling.forEach(({ stem, option: now }, place) => {
      const own = task.options[stem] ?? [];
      own.forEach(({ loss }, option) => {
        const chance = chances[place]?.[option] ?? 1;
        const more = chance - chanceNow(place);
        const less = (own[now]?.loss ?? 0) - loss;
        if (less <= 0 || more > slack || chance > task.limit) return;
        const gain = less / Math.max(more, 1e-9);
        if (gain > most) [best, most] = [{ place, option, more }, gain];
      });
    });
    if (best === undefined) return filling;
    slack -= best.more;
    filling[best.place] = { stem: filling[best.place]?.stem ?? 0, option: best.option };
  }
}

function lossOf({ options }: Task, falls: readonly Fall[]): number {
  return falls.reduce((sum, { stem, option }) => sum + (options[stem]?.[option]?.loss ?? 0), 0);
}
