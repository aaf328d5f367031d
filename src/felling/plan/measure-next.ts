// What to measure first: the measurement that could change the plan most. Takes as long as some dozen plans, and is only worked
// out when somebody asks.
import type { FellingModel } from '../model/build.ts';
import { modelOtherwise } from '../model/otherwise.ts';
import type { OrderProblem } from '../order/problem.ts';
import type { OrderPlan } from '../order/result.ts';
import { mostTelling, type Telling } from '../order/sensitivity.ts';
import { heldAgainst } from './held.ts';
import { type Measurable, type MeasuredAs, measurables, type Possible } from './measurable.ts';

export type MeasureFirst = Readonly<{
  /** The most telling first; measurements that change nothing are left out. */
  measurements: readonly Telling<Measurable, MeasuredAs>[];
  /** How many things were looked at, for how many of them the plan was made anew, and how many are left out of the list. */
  lookedAt: number;
  plannedAnew: number;
}>;

/** Up to so many falls the plan is made anew for everything that could be measured. */
const ALL_ANEW = 7;
/** With more falls, for so many: those against which the plan holds worst. */
const SOME_ANEW = 6;
/** With more falls than this a plan takes too long to make it anew at all. */
const MOST_FALLS = 14;
/** A sapling or leave tree is asked about where a planned fall has at least this chance of reaching it. */
const REACHED = 0.05;

/**
 * @param problemOf the order problem of a model as the plan was asked for: its labels, and what was settled
 */
export function measureFirst(
  model: FellingModel,
  plan: OrderPlan,
  problemOf: (model: FellingModel) => OrderProblem,
): MeasureFirst {
  const aims = new Map(plan.steps.map(({ stem, aim }) => [model.inputs.stems[stem]?.id ?? '', aim]));
  const possible = measurables(model, reachedBy(model, plan));
  const { length } = plan.steps;
  if (length > MOST_FALLS) {
    const measurements = screened(model, plan, possible).map(({ told }) => told);
    return { measurements: measurements.filter(tellsAnything), lookedAt: possible.length, plannedAnew: 0 };
  }
  const some =
    length <= ALL_ANEW
      ? possible
      : screened(model, plan, possible)
          .slice(0, SOME_ANEW)
          .map(({ one }) => one);
  const measurements = mostTelling(
    plan,
    some.map(({ what, outcomes }) => ({
      what,
      outcomes: outcomes.map(({ how, change }) => ({
        how,
        rebuild: () => {
          const changed = modelOtherwise(model, change, aims);
          return changed === undefined ? undefined : problemOf(changed);
        },
      })),
    })),
  );
  return {
    measurements: measurements.filter(tellsAnything),
    lookedAt: possible.length,
    plannedAnew: some.length,
  };
}

/** By how badly the plan would hold, without planning anew. */
function screened(model: FellingModel, plan: OrderPlan, possible: readonly Possible[]) {
  return possible
    .flatMap((one) => {
      const held = one.outcomes.map(({ how, change }) => ({ how, ...heldAgainst(model, plan, change) }));
      const [worst] = held.sort(byHolding);
      if (worst === undefined) return [];
      const { how, overLimit, lost, hangUps } = worst;
      const told: Telling<Measurable, MeasuredAs> = {
        what: one.what,
        how,
        overLimit,
        lost,
        setAside: [],
        takenUp: [],
        kept: { hangUps, loss: 0 },
        more: { hangUps: 0, loss: 0 },
        changed: false,
      };
      // A measurement that could only help is worth knowing too, after those that could hurt.
      return [
        { one, told, overLimit, hangUps, spread: Math.max(...held.map((each) => Math.abs(each.hangUps))) },
      ];
    })
    .sort((a, b) => byHolding(a, b) || b.spread - a.spread);
}

type Holding = Readonly<{ overLimit: readonly string[]; hangUps: number }>;

function byHolding(a: Holding, b: Holding): number {
  return b.overLimit.length - a.overLimit.length || b.hangUps - a.hangUps;
}

function tellsAnything({ overLimit, setAside, takenUp, more, kept }: Telling<unknown, unknown>): boolean {
  const counts = ({ hangUps, loss }: Readonly<{ hangUps: number; loss: number }>) =>
    hangUps >= 0.005 || loss >= 0.005;
  return overLimit.length + setAside.length + takenUp.length > 0 || counts(more) || counts(kept);
}

function reachedBy(model: FellingModel, { steps }: OrderPlan): ReadonlySet<string> {
  return new Set(
    steps.flatMap(({ stem, choice }) => {
      const of = model.stems[stem];
      const aim = of?.aims[choice];
      if (of === undefined || aim === undefined) return [];
      const risks = of.things.flatMap((thing) => thing(aim));
      return risks.filter(({ chance }) => chance >= REACHED).map(({ id }) => id);
    }),
  );
}
