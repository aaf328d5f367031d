// Which single measurement would change a plan most: what should be measured before the saw is started.

import { turn } from '../model/fall.ts';
import { judged, type SequenceFall } from './judge.ts';
import { planOrder } from './plan.ts';
import type { OrderProblem } from './problem.ts';
import type { More, OrderPlan } from './result.ts';

/** One thing that could be measured, and the problem as it would be if it came out otherwise (say one error lower or higher). */
export type Measurement = Readonly<{ name: string; outcomes: readonly (() => OrderProblem)[] }>;

/** The worst that one measurement could show about a plan. */
export type Telling = Readonly<{
  name: string;
  /** How many falls of the plan would be over the limit, or aimed where nothing can be aimed any more. */
  overLimit: number;
  /** How many stems would have to be set aside or could be felled after all. */
  aside: number;
  /** What keeping to the plan would cost beyond the plan made anew, for the stems that both fell. */
  more: More;
  /** Whether the plan made anew fells in another order, or aims a stem otherwise by more than 5°. */
  changed: boolean;
}>;

/** How far an aim may lie from a planned one and still be the same, degrees. */
const same = 5;

/**
 * The measurements, the one that could change the plan most first: by falls over the limit, then stems set aside or taken up,
 * then hang-ups, then loss. Each outcome is planned anew, so that it takes as long as that many plans.
 *
 * @param plan the plan of the problem as it is measured now
 */
export function mostTelling(plan: OrderPlan, measurements: readonly Measurement[]): Telling[] {
  return measurements
    .map(({ name, outcomes }) => outcomes.map((rebuild) => told(name, plan, rebuild())).sort(byWeight)[0])
    .filter((telling) => telling !== undefined)
    .sort(byWeight);
}

function byWeight(a: Telling, b: Telling): number {
  return (
    b.overLimit - a.overLimit ||
    b.aside - a.aside ||
    b.more.hangUps - a.more.hangUps ||
    b.more.loss - a.more.loss ||
    Number(b.changed) - Number(a.changed)
  );
}

function told(name: string, plan: OrderPlan, problem: OrderProblem): Telling {
  const anew = planOrder(problem);
  const stemOf = new Map(problem.stems.map(({ id }, stem) => [id, stem]));
  let lost = 0;
  const kept = plan.steps.flatMap(({ id, aim }): SequenceFall[] => {
    const stem = stemOf.get(id);
    if (stem === undefined) return [];
    const turns = (problem.stems[stem]?.choices ?? []).map((choice) => Math.abs(turn(choice.aim - aim)));
    const nearest = turns.reduce((least, turn) => Math.min(least, turn), 360);
    if (nearest > same) lost += 1;
    return turns.length === 0 ? [] : [{ stem, choice: turns.indexOf(nearest) }];
  });
  const old = judged(problem, kept);
  const both = kept.every(({ stem }) => anew.steps.some((step) => step.stem === stem));
  const whole = both && kept.length === anew.steps.length;
  const fresh = judged(problem, anew.steps);
  return {
    name,
    overLimit: old.overLimit + lost,
    aside: differing(
      plan.aside.map(({ id }) => id),
      anew.aside.map(({ id }) => id),
    ),
    // Plans that fell different stems cannot be compared by their sums.
    more: whole
      ? { hangUps: Math.max(0, old.hangUps - fresh.hangUps), loss: Math.max(0, old.loss - fresh.loss) }
      : { hangUps: 0, loss: 0 },
    changed: !isSame(plan, anew),
  };
}

function differing(one: readonly string[], other: readonly string[]): number {
  return one.filter((id) => !other.includes(id)).length + other.filter((id) => !one.includes(id)).length;
}

function isSame(one: OrderPlan, other: OrderPlan): boolean {
  return (
    one.steps.length === other.steps.length &&
    one.steps.every(({ id, aim }, place) => {
      const step = other.steps[place];
      return step?.id === id && Math.abs(turn(step.aim - aim)) <= same;
    })
  );
}
