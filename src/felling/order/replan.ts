// The plan again from the state as it is: after a fall, or with an aim or a place settled.
import { FellingError } from '../error.ts';
import { planOrder } from './plan.ts';
import type { Choice, Fixed, OrderProblem } from './problem.ts';
import type { OrderPlan } from './result.ts';

/**
 * What has happened and what is settled since the problem was made. A stem that hangs is not down: nothing may be planned within its
 * reach, which the model sees to.
 */
export type Since = Readonly<{
  /** Stems that lie on the ground. */
  down: readonly number[];
  /** Aims and places settled for stems that stand; places count from the first stem still to fall. */
  fixed?: readonly Fixed[];
}>;

/**
 * The plan for what still stands. Stems keep their numbers.
 *
 * @throws FellingError as `planOrder`, and where something is settled for a stem that is down
 */
export function replanOrder(problem: OrderProblem, { down, fixed = [] }: Since): OrderPlan {
  const stands = problem.stems.map((_, stem) => !down.includes(stem));
  for (const { stem } of fixed) {
    if (stands[stem] === false)
      throw new FellingError(
        'fixed',
        problem.stems[stem]?.id ?? '',
        `The stem ${problem.stems[stem]?.id} is down already.`,
        'Settle aims and places of stems that stand.',
      );
  }
  const kept = [...problem.stems.keys()].filter((stem) => stands[stem]);
  const numbers = new Map(kept.map((stem, number) => [stem, number]));
  const numbered = (stems: readonly number[]): number[] => stems.flatMap((stem) => numbers.get(stem) ?? []);
  const plan = planOrder({
    ...problem,
    stems: kept.map((stem) => ({
      id: problem.stems[stem]?.id ?? '',
      choices: (problem.stems[stem]?.choices ?? []).map((choice) => amongStanding(choice, numbers)),
    })),
    before: problem.before.flatMap(([a, b]): [number, number][] => {
      const [earlier, later] = [numbers.get(a), numbers.get(b)];
      return earlier === undefined || later === undefined ? [] : [[earlier, later]];
    }),
    last: numbered(problem.last),
    fixed: fixed.map((one) => ({ ...one, stem: numbers.get(one.stem) ?? -1 })),
  });
  return withNumbers(plan, (number) => kept[number] ?? number);
}

/** A choice of which only those still standing are in the way. */
function amongStanding(choice: Choice, numbers: ReadonlyMap<number, number>): Choice {
  return {
    ...choice,
    segments: choice.segments.map((segment) => ({
      ...segment,
      holds: segment.holds.flatMap(({ stem, survival }) => {
        const number = numbers.get(stem);
        return number === undefined ? [] : [{ stem: number, survival }];
      }),
    })),
  };
}

function withNumbers(plan: OrderPlan, original: (number: number) => number): OrderPlan {
  return {
    ...plan,
    steps: plan.steps.map((step) => ({
      ...step,
      stem: original(step.stem),
      otherStems: step.otherStems.map((other) => ({ ...other, stem: original(other.stem) })),
    })),
    aside: plan.aside.map((one) => ({ ...one, stem: original(one.stem), causes: one.causes.map(original) })),
  };
}
