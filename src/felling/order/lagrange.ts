// How much loss a hang-up is worth when the budget for hang-ups is used up: the price at which the least of
// (loss + price × chance) gives the highest bound on the loss of every plan within the budget.
import type { Moves } from './moves.ts';

/** One fall of a plan: a stem and the number of its option. */
export type Fall = Readonly<{ stem: number; option: number }>;
export type Sums = Readonly<{ falls: readonly Fall[]; hangUps: number; loss: number }>;

export type Dual = Readonly<{
  price: number;
  /** No plan within the budget has a lower loss. */
  bound: number;
  /** The best plan within the budget that was met on the way. */
  best: Sums | undefined;
}>;

/** Least of loss + price × chance by set standing, still to come, with the move that gives it. */
function toGoAt(moves: Moves, price: number): { least: Float64Array; move: Int32Array; stem: Uint8Array } {
  const { start, chance, loss, size } = moves;
  const sets = 2 ** size;
  const least = new Float64Array(sets).fill(Number.POSITIVE_INFINITY);
  const move = new Int32Array(sets);
  const by = new Uint8Array(sets);
  least[0] = 0;
  for (let set = 1; set < sets; set += 1) {
    let best = Number.POSITIVE_INFINITY;
    for (let stem = 0; stem < size; stem += 1) {
      if ((set & (1 << stem)) === 0) continue;
      const rest = set ^ (1 << stem);
      const after = least[rest] as number;
      const end = start[stem * sets + rest + 1] as number;
      for (let at = start[stem * sets + rest] as number; at < end; at += 1) {
        const sum = price * (chance[at] as number) + (loss[at] as number) + after;
        if (sum < best) {
          best = sum;
          move[set] = at;
          by[set] = stem;
        }
      }
    }
    least[set] = best;
  }
  return { least, move, stem: by };
}

/** Least of loss + price × chance by set standing, up to there from all standing. */
export function soFarAt({ start, chance, loss, size }: Moves, price: number): Float64Array {
  const sets = 2 ** size;
  const least = new Float64Array(sets).fill(Number.POSITIVE_INFINITY);
  least[sets - 1] = 0;
  for (let set = sets - 1; set > 0; set -= 1) {
    const here = least[set] as number;
    if (here === Number.POSITIVE_INFINITY) continue;
    for (let stem = 0; stem < size; stem += 1) {
      if ((set & (1 << stem)) === 0) continue;
      const rest = set ^ (1 << stem);
      const end = start[stem * sets + rest + 1] as number;
      for (let at = start[stem * sets + rest] as number; at < end; at += 1) {
        const sum = here + price * (chance[at] as number) + (loss[at] as number);
        if (sum < (least[rest] as number)) least[rest] = sum;
      }
    }
  }
  return least;
}

function planAt(moves: Moves, price: number): Sums & { cost: number } {
  const { least, move, stem } = toGoAt(moves, price);
  const falls: Fall[] = [];
  let [hangUps, loss] = [0, 0];
  let set = least.length - 1;
  const cost = least[set] ?? 0;
  while (set !== 0 && cost < Number.POSITIVE_INFINITY) {
    const at = move[set] as number;
    falls.push({ stem: stem[set] as number, option: moves.option[at] as number });
    hangUps += moves.chance[at] as number;
    loss += moves.loss[at] as number;
    set ^= 1 << (stem[set] as number);
  }
  return { falls, hangUps, loss, cost };
}

const dearest = 2 ** 20;
const rounds = 20;

/** Looks for the best price between nothing and 2^20 saplings a hang-up along the lower hull of (chance, loss). */
export function dualOf(moves: Moves, budget: number): Dual {
  let over = planAt(moves, 0);
  if (over.hangUps <= budget) return { price: 0, bound: over.cost, best: over };
  let under = planAt(moves, dearest);
  let [price, bound] = [dearest, under.cost - dearest * budget];
  if (under.hangUps > budget) return { price, bound, best: undefined };
  let best = under;
  for (let round = 0; round < rounds; round += 1) {
    const next = (under.loss - over.loss) / (over.hangUps - under.hangUps);
    const plan = planAt(moves, next);
    if (plan.cost - next * budget > bound) [price, bound] = [next, plan.cost - next * budget];
    if (plan.cost >= over.loss + next * over.hangUps - 1e-12) break;
    if (plan.hangUps > budget) over = plan;
    else {
      under = plan;
      if (plan.loss < best.loss) best = plan;
    }
  }
  return { price, bound, best };
}
