// The order of felling against every order there is, on invented problems drawn with fixed seeds.
import { describe, expect, it } from 'vitest';
import { type OrderPlan, type OrderProblem, planOrder } from '../../../src/felling/index.ts';
import { brute, chanceOf } from './brute.ts';
import { randomProblem } from './chance.ts';

const cases = [
  ...Array.from({ length: 200 }, (_, seed) => [2 + (seed % 4), seed % 2 === 0 ? 3 : 4, seed] as const),
  ...Array.from({ length: 12 }, (_, seed) => [6, 2, 1000 + seed] as const),
  ...Array.from({ length: 6 }, (_, seed) => [7, 2, 2000 + seed] as const),
].map(([count, aims, seed]) => [count, count === 5 ? 3 : aims, seed] as const);

/** What a plan says of itself, computed again from the definition. */
function recomputed(
  problem: OrderProblem,
  plan: OrderPlan,
): { hangUps: number; loss: number; highest: number } {
  const standing = new Set(problem.stems.keys());
  let [hangUps, loss, highest] = [0, 0, 0];
  for (const { stem, choice } of plan.steps) {
    standing.delete(stem);
    const chance = chanceOf(problem, stem, choice, standing);
    hangUps += chance;
    highest = Math.max(highest, chance);
    loss += problem.stems[stem]?.choices[choice]?.loss ?? 0;
  }
  return { hangUps, loss, highest };
}

describe('an order of at most 7 stems', () => {
  it('fells as many as any order, with the least sum of hang-up chances and the least loss within the tolerance', () => {
    let [aside, spent] = [0, 0];
    for (const [count, aims, seed] of cases) {
      const problem = randomProblem(count, aims, seed);
      const plan = planOrder(problem);
      const best = brute(problem);
      const where = `seed ${seed}`;
      expect(plan.steps.length, where).toBe(best.felled);
      expect(plan.steps.length + plan.aside.length, where).toBe(count);
      expect(Math.abs(plan.levels.hangUps.found - best.hangUps), where).toBeLessThan(1e-9);
      expect(Math.abs(plan.totals.loss - best.loss), where).toBeLessThan(1e-9);
      expect(plan.totals.hangUps, where).toBeLessThanOrEqual(best.hangUps + problem.tolerance + 1e-9);
      expect(plan.exact, where).toBe(true);
      const again = recomputed(problem, plan);
      expect(Math.abs(again.hangUps - plan.totals.hangUps), where).toBeLessThan(1e-9);
      expect(Math.abs(again.loss - plan.totals.loss), where).toBeLessThan(1e-9);
      expect(again.highest, where).toBeLessThanOrEqual(problem.limit + 1e-9);
      if (plan.aside.length > 0) aside += 1;
      if (plan.totals.hangUps > plan.levels.hangUps.found + 1e-9) spent += 1;
    }
    // The problems must try both: stems set aside, and hang-ups traded for loss.
    expect(aside).toBeGreaterThan(20);
    expect(spent).toBeGreaterThan(20);
  });

  it('keeps an aim and a place that a person has settled, and is the best of those that do', () => {
    let kept = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const drawn = { ...randomProblem(4, 3, 3000 + seed), before: [], last: [], limit: 1 };
      const stems = drawn.stems.filter(({ choices }) => choices.length > 0);
      if (stems.length < 4) continue;
      const problem: OrderProblem = { ...drawn, fixed: [{ stem: 1, choice: 2, place: 2 }] };
      const plan = planOrder(problem);
      const best = brute(problem);
      expect(plan.steps[2]).toMatchObject({ stem: 1, choice: 2 });
      expect(Math.abs(plan.levels.hangUps.found - best.hangUps)).toBeLessThan(1e-9);
      expect(Math.abs(plan.totals.loss - best.loss)).toBeLessThan(1e-9);
      kept += 1;
    }
    expect(kept).toBeGreaterThan(20);
  });
});
