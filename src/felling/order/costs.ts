// The cheapest aim of a stem while others stand, one stem and one set at a time: for groups too large for tables.
import type { Price } from './tables.ts';
import { hangUpOf, type Task } from './task.ts';

export type Aimed = Readonly<{ option: number; hangUp: number; loss: number; cost: number }>;

/** @returns none where no aim is within the limit */
export function cheapestAim(
  task: Pick<Task, 'options' | 'limit'>,
  stem: number,
  standing: Uint8Array,
  price: Price,
): Aimed | undefined {
  let best: Aimed | undefined;
  const own = task.options[stem] ?? [];
  for (let number = 0; number < own.length; number += 1) {
    const option = own[number];
    if (option === undefined || (best && price.loss * option.loss >= best.cost)) continue;
    const hangUp = hangUpOf(option, standing);
    const cost = price.hangUp * hangUp + price.loss * option.loss;
    if (hangUp <= task.limit && (best === undefined || cost < best.cost))
      best = { option: number, hangUp, loss: option.loss, cost };
  }
  return best;
}

/** How much dearer each stem gets through each single other one that stands: [falling][standing], 0 or more. */
export function pairCosts(task: Task, price: Price): Float64Array[] {
  const count = task.options.length;
  const standing = new Uint8Array(count);
  return Array.from({ length: count }, (_, stem) => {
    const alone = cheapestAim(task, stem, standing, price)?.cost ?? 0;
    const inWay = new Set(
      (task.options[stem] ?? []).flatMap(({ parts }) => parts.flatMap(({ holders }) => holders)),
    );
    return Float64Array.from({ length: count }, (__, other) => {
      if (!inWay.has(other)) return 0;
      standing[other] = 1;
      const beside = cheapestAim(task, stem, standing, price)?.cost;
      standing[other] = 0;
      return (beside ?? alone + price.hangUp) - alone;
    });
  });
}
