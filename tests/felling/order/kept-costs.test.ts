// Costs kept up while stems change places, held against each cost worked out anew from the definition of the chance of a hang-up
// (reference: the sum over segments of weight × (1 − the product of survivals), as docs/felling-model.md states it).
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../src/felling/index.ts';
import { aimsOf, inTheWay } from '../../../src/felling/order/costs.ts';
import { keptCosts } from '../../../src/felling/order/kept-costs.ts';
import { hangUpOf, type Task, taskOf } from '../../../src/felling/order/task.ts';
import { inventedGroup } from './woods.ts';

const price = { hangUp: 40, loss: 1 };

function anew({ options, limit }: Task, order: readonly number[]): number {
  const standing = new Uint8Array(order.length).fill(1);
  return order.reduce((sum, stem) => {
    standing[stem] = 0;
    const costs = (options[stem] ?? [])
      .map((option) => ({ hangUp: hangUpOf(option, standing), loss: option.loss }))
      .filter(({ hangUp }) => hangUp <= limit)
      .map(({ hangUp, loss }) => price.hangUp * hangUp + price.loss * loss);
    return sum + Math.min(...costs);
  }, 0);
}

function after(order: readonly number[], from: number, to: number): number[] {
  const moved = order.slice();
  moved.splice(to, 0, ...moved.splice(from, 1));
  return moved;
}

describe('costs kept up while stems change places', () => {
  // So dense that one number, two numbers and more than two are needed to tell the sets apart.
  it.each([
    { count: 30, room: 30, widest: [1, 52] as const },
    { count: 70, room: 4, widest: [53, 104] as const },
    { count: 120, room: 2, widest: [105, 119] as const },
  ])('are those of the order as it is, with $count stems', ({ count, room, widest: [least, most] }) => {
    const drawn = inventedGroup(count, 3, { room, step: 45 });
    const none = drawn.stems.map(() => []);
    const { task } = taskOf({ ...drawn, limit: 1 }, none);
    const widest = Math.max(...none.map((_, stem) => inTheWay(task, stem).length));
    expect(widest).toBeGreaterThanOrEqual(least);
    expect(widest).toBeLessThanOrEqual(most);
    const random = seeded(count);
    const place = () => Math.floor(random() * count);
    let order = none.map((_, stem) => stem);
    const live = order.slice();
    const costs = keptCosts(task, live, aimsOf(task)(price));
    expect(costs.sum).toBeCloseTo(anew(task, order), 7);
    for (let move = 0; move < 30; move += 1) {
      const [from, to] = [place(), place()];
      if (from === to) continue;
      const changed = after(order, from, to);
      const [before, more] = [costs.sum, anew(task, changed) - anew(task, order)];
      // Every other one is allowed a little less than it costs, and has to leave everything as it was.
      const isAllowed = move % 2 === 0;
      live.splice(0, count, ...changed);
      expect(costs.moved(from, to, more + (isAllowed ? 1e-6 : -1e-6))).toBe(isAllowed);
      expect(costs.sum).toBeCloseTo(isAllowed ? before + more : before, 7);
      order = isAllowed ? changed : order;
      live.splice(0, count, ...order);
    }
    expect(costs.sum).toBeCloseTo(anew(task, order), 6);
  });
});
