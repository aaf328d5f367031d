// Which single measurement would change a plan most: what should be measured before the saw is started.

import { FellingError } from '../error.ts';
import { turn } from '../model/fall.ts';
import { hangUpChance, judged, type SequenceFall } from './judge.ts';
import { planOrder } from './plan.ts';
import type { OrderProblem } from './problem.ts';
import type { More, OrderPlan } from './result.ts';

/** One way in which a measurement could come out, and the problem as it then is; none where it cannot come out so. */
export type Outcome<How> = Readonly<{ how: How; rebuild: () => OrderProblem | undefined }>;

/** One thing that could be measured, with its outcomes, say one error higher and one lower. */
export type Measurement<What, How> = Readonly<{ what: What; outcomes: readonly Outcome<How>[] }>;

/** The worst that one measurement could show about a plan. */
export type Telling<What, How> = Readonly<{
  what: What;
  /** The outcome that shows it. */
  how: How;
  /** Stems whose fall as planned would be over the limit, or aimed where nothing can be aimed any more; by id. */
  overLimit: readonly string[];
  /** Those of them that could not be aimed as planned any more. */
  lost: readonly string[];
  /** Stems that would have to be set aside, and such as could be felled after all; by id. */
  setAside: readonly string[];
  takenUp: readonly string[];
  /** What keeping to the plan would then cost beyond what it costs as measured now; below 0 less. */
  kept: More;
  /** What keeping to the plan would cost beyond the plan made anew, for the stems that both fell. */
  more: More;
  /** Whether the plan made anew fells in another order, or aims a stem otherwise by more than 5°. */
  changed: boolean;
}>;

/** How far an aim may lie from a planned one and still be the same, degrees. */
const same = 5;

/**
 * The measurements, the one that could change the plan most first: by falls over the limit, then stems set aside or taken up,
 * then hang-ups that keeping to the plan would cost, then loss. Each outcome is planned anew, so that it takes as long as that many
 * plans.
 *
 * @param plan the plan of the problem as it is measured now
 */
export function mostTelling<What, How>(
  plan: OrderPlan,
  measurements: readonly Measurement<What, How>[],
): Telling<What, How>[] {
  return measurements
    .flatMap(({ what, outcomes }) => {
      const all = outcomes.flatMap(({ how, rebuild }): Telling<What, How>[] => {
        const problem = rebuild();
        return problem === undefined ? [] : [{ what, how, ...told(plan, problem) }];
      });
      return all.sort(byWeight).slice(0, 1);
    })
    .sort(byWeight);
}

type Told = Omit<Telling<unknown, unknown>, 'what' | 'how'>;

function byWeight(a: Told, b: Told): number {
  return (
    b.overLimit.length - a.overLimit.length ||
    b.setAside.length + b.takenUp.length - a.setAside.length - a.takenUp.length ||
    b.more.hangUps - a.more.hangUps ||
    b.more.loss - a.more.loss ||
    Number(b.changed) - Number(a.changed) ||
    b.kept.hangUps - a.kept.hangUps ||
    b.kept.loss - a.kept.loss
  );
}

const NOTHING: More = { hangUps: 0, loss: 0 };

function told(plan: OrderPlan, problem: OrderProblem): Told {
  const { sequence, lost } = keptTo(plan, problem);
  const old = judged(problem, sequence);
  const { hangUps, loss } = plan.totals;
  const shared = {
    overLimit: [...new Set([...lost, ...overLimit(problem, sequence)])],
    lost,
    kept: { hangUps: old.hangUps - hangUps, loss: old.loss - loss },
  };
  const fresh = plannedAnew(problem);
  if (fresh === undefined) return { ...shared, setAside: [], takenUp: [], more: NOTHING, changed: true };
  const [was, is] = [plan, fresh].map(({ aside }) => aside.map(({ id }) => id));
  const both = sequence.every(({ stem }) => fresh.steps.some((step) => step.stem === stem));
  const cost = judged(problem, fresh.steps);
  return {
    ...shared,
    setAside: (is ?? []).filter((id) => !was?.includes(id)),
    takenUp: (was ?? []).filter((id) => !is?.includes(id)),
    // Plans that fell different stems cannot be compared by their sums.
    more:
      both && sequence.length === fresh.steps.length
        ? { hangUps: Math.max(0, old.hangUps - cost.hangUps), loss: Math.max(0, old.loss - cost.loss) }
        : NOTHING,
    changed: !isSame(plan, fresh),
  };
}

/** None where a settled place cannot be kept any more. */
function plannedAnew(problem: OrderProblem): OrderPlan | undefined {
  try {
    return planOrder(problem);
  } catch (error) {
    if (error instanceof FellingError) return undefined;
    throw error;
  }
}

/** The plan in terms of another problem: each stem with its nearest aim there, and the stems that have none near. */
function keptTo({ steps }: OrderPlan, { stems }: OrderProblem) {
  const lost: string[] = [];
  const sequence = steps.flatMap(({ id, aim }): SequenceFall[] => {
    const stem = stems.findIndex((one) => one.id === id);
    const turns = (stems[stem]?.choices ?? []).map((choice) => Math.abs(turn(choice.aim - aim)));
    const nearest = turns.reduce((least, one) => Math.min(least, one), 360);
    if (nearest > same) lost.push(id);
    return turns.length === 0 ? [] : [{ stem, choice: turns.indexOf(nearest) }];
  });
  return { sequence, lost };
}

function overLimit({ stems, limit }: OrderProblem, sequence: readonly SequenceFall[]): string[] {
  const down = new Set<number>();
  return sequence.flatMap(({ stem, choice }) => {
    down.add(stem);
    const { id = '', choices = [] } = stems[stem] ?? {};
    const chance = hangUpChance(choices[choice]?.segments ?? [], (other) => !down.has(other));
    return chance > limit + 1e-9 ? [id] : [];
  });
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
