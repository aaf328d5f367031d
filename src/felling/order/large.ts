// A plan for more than 16 stems, by search, with a bound on each level that says how far from the best it can be.
import { lowerBound } from './bound.ts';
import type { Found } from './exact.ts';
import type { Fall } from './lagrange.ts';
import { improved, type Ordered, searchedOrder } from './search.ts';
import { hangUpOf, type Task } from './task.ts';

/** What a hang-up is worth in saplings when the search for less loss begins, and how often that is changed. */
const dearest = 1024;
const steps = 6;

export type FoundLarge = Found & Readonly<{ hangUpBound: number }>;

/** @returns none where the search met no order that keeps the settled places */
export function searchedPlan(task: Task, tolerance: number): FoundLarge | undefined {
  const start = searchedOrder(task, { hangUp: 1, loss: 0 });
  if (start === undefined) return undefined;
  const least = lowerBound(task, { hangUp: 1, loss: 0 }, start.hangUps);
  const budget = start.hangUps + tolerance;
  const { best, price } = lessLoss(task, start, budget);
  const falls = filled(task, best.falls, budget);
  const loss = lossOf(task, falls);
  const below = lowerBound(task, { hangUp: price, loss: 1 }, loss + price * budget);
  return {
    falls,
    leastHangUps: start.hangUps,
    hangUpBound: least.bound,
    lossBound: Math.max(0, below.bound - price * budget),
    bytes: Math.max(least.bytes, below.bytes),
  };
}

/** Lowers the price of a hang-up while the order found at it stays within the budget, then closes in on where it no longer does. */
function lessLoss(task: Task, start: Ordered, budget: number): { best: Ordered; price: number } {
  let best = start;
  let [over, under] = [0, dearest];
  let from = start;
  let price = dearest / 4;
  for (let step = 0; step < steps; step += 1) {
    const found = improved(task, from, { hangUp: price, loss: 1 });
    if (found.hangUps <= budget) {
      under = price;
      from = found;
      if (found.loss < best.loss) best = found;
    } else over = price;
    price = over === 0 ? under / 6 : Math.sqrt(over * under);
  }
  return { best, price: over === 0 ? under : price };
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
