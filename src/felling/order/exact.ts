// The best plan for at most 16 stems, exactly: first the least sum of hang-up chances, then the least loss within the
// tolerance of it.
import type { Fall } from './lagrange.ts';
import { leastLoss } from './least-loss.ts';
import { movesWithin } from './moves.ts';
import { leastSoFar, leastToGo, orderOf, turnsOf } from './subsets.ts';
import { type ChanceTable, chanceAt, chanceTable, cheapest, type Price, tableBytes } from './tables.ts';
import type { Task } from './task.ts';

/** Falls and labels that are kept at most: about 100 and 80 MB. Beyond, the loss is given with a bound. */
const mostMoves = 4_000_000;
const mostLabels = 2_000_000;

export type Found = Readonly<{
  falls: readonly Fall[];
  /** The least sum of hang-up chances of any plan, before the tolerance. */
  leastHangUps: number;
  /** No plan within the tolerance has a lower loss. */
  lossBound: number;
  /** Largest size of the tables, in bytes. */
  bytes: number;
}>;

/** Tables of all options of a task. */
export function tablesOf({ options }: Pick<Task, 'options'>): ChanceTable[][] {
  return options.map((own) => own.map(chanceTable));
}

/** @returns none where no order keeps what is settled */
export function bestPlan(task: Task, tolerance: number): Found | undefined {
  const tables = tablesOf(task);
  const turns = turnsOf(task);
  const costs = cheapest(task, tables, { hangUp: 1, loss: 0 });
  const toGo = leastToGo(costs, turns);
  const leastHangUps = toGo[toGo.length - 1] ?? 0;
  if (leastHangUps === Number.POSITIVE_INFINITY) return undefined;
  const soFar = leastSoFar(costs, turns);
  const budget = leastHangUps + tolerance;
  const moves = movesWithin({ ...task, tables, costs, turns, toGo, soFar, budget }, mostMoves);
  const found = moves && leastLoss(moves, soFar, budget, mostLabels);
  const tableSize = tables.flat().reduce((sum, table) => sum + tableBytes(table), 0);
  const setSize = 8 * 2 ** turns.size * (turns.size + 2);
  const moveSize = moves === undefined ? 0 : 18 * moves.chance.length + moves.start.byteLength;
  const bytes = tableSize + setSize + moveSize + (found?.bytes ?? 0);
  if (found) return { falls: found.falls, leastHangUps, lossBound: found.bound, bytes };
  const order = orderOf(costs, turns, toGo) ?? [];
  return {
    falls: cheapestFalls(task, tables, order, { hangUp: 1, loss: 0 }),
    leastHangUps,
    lossBound: 0,
    bytes,
  };
}

function cheapestFalls(
  { options, limit }: Task,
  tables: readonly (readonly ChanceTable[])[],
  order: readonly number[],
  price: Price,
): Fall[] {
  let standing = 2 ** order.length - 1;
  return order.map((stem) => {
    standing ^= 1 << stem;
    let [best, least] = [0, Number.POSITIVE_INFINITY];
    options[stem]?.forEach(({ loss }, option) => {
      const table = tables[stem]?.[option];
      const chance = table ? chanceAt(table, standing) : Number.POSITIVE_INFINITY;
      const cost = price.hangUp * chance + price.loss * loss;
      if (chance <= limit && cost < least) [best, least] = [option, cost];
    });
    return { stem, option: best };
  });
}
