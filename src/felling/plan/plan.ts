// A plan for one group: the order and the aims, each explained, with what is set aside and why. It computes consequences of
// a choice; it never says that a fall is without danger, and a trained person on site decides.
import { declination, isUnresolved } from '../../place/index.ts';
import { type AfterPlan, afterPlan } from '../after/after.ts';
import type { Gathered } from '../gather/index.ts';
import { assume } from '../model/assumptions.ts';
import { buildModel, type FellingModel, fallOf } from '../model/build.ts';
import { type Explanation, explain } from '../model/explain.ts';
import type { FilledBy } from '../model/filled.ts';
import type { OnTheGround } from '../model/inputs.ts';
import { planOrder } from '../order/plan.ts';
import type { OrderProblem } from '../order/problem.ts';
import type { OrderPlan, PlanStep } from '../order/result.ts';
import type { Aim } from '../stem/aims.ts';
import { type EscapeRoutes, escapeRoutes, type InTheWay } from '../stem/escape.ts';
import { type HingeWorksheet, hingeWorksheet, type NotchMethod } from '../stem/hinge.ts';
import { type SawSide, sawSides } from '../stem/saw-side.ts';
import { asideOf, type PlannedAside } from './aside.ts';
import { changesFrom, laidOver, type OwnDefaults, type PlannedChange } from './defaults.ts';
import { type MeasureFirst, measureFirst } from './measure-next.ts';
import { fixedOf, type Settled, stillFixed } from './settled.ts';

/** Version of the model, kept with every plan that is adopted. */
export const MODEL_VERSION = 'lay-1';

export type PlanAsked = Readonly<{
  /** RFC 3339; the day that magnetic north is taken at. */
  when: string;
  /** Assumptions that are not at their defaults, by name. */
  assumptions?: Readonly<Record<string, number>>;
  /** What was recorded for who plans; what is typed for one plan goes before it. */
  own?: OwnDefaults;
  settled?: readonly Settled[];
  /** Kind of notch; open face if left out. */
  notch?: NotchMethod;
  /** Whether to work out what to measure first, which takes as long as some hundred plans. */
  measureNext?: boolean;
}>;

/** One fall of the plan, with all that is said beside it. */
export type PlannedFall = Readonly<{
  stem: string;
  label: string;
  step: PlanStep;
  aim: Aim;
  /** The aim by the compass on that day; undefined where there is no declination. */
  magnetic: number | undefined;
  explanation: Explanation;
  waysOut: EscapeRoutes;
  worksheet: HingeWorksheet;
  /** Saplings at the stump, with the side to work from. */
  sides: readonly SawSide[];
  /** What nobody measured, and which assumptions stand in for it. */
  filledBy: readonly FilledBy[];
}>;

export type FellingPlan = Readonly<{
  group: Readonly<{ id: string; label: string }>;
  version: typeof MODEL_VERSION;
  when: string;
  aside: readonly PlannedAside[];
  falls: readonly PlannedFall[];
  totals: OrderPlan['totals'];
  levels: OrderPlan['levels'];
  exact: boolean;
  limit: number;
  /** What magnetic north lies east of true north by on that day, degrees; undefined where that is not known. */
  declination: number | undefined;
  /** Mean wind that it was computed for, m/s; 0: calm. */
  wind: number;
  changed: readonly PlannedChange[];
  /** What was recorded for who plans and could not be used, each a sentence. */
  unused: OwnDefaults['unused'];
  unplaced: Gathered['unplaced'];
  restsOn: readonly string[];
  /** What no table of costs can hold: crossings, broken butts, rolling, losses counted once. */
  after: AfterPlan;
  /** Only where it was asked for. */
  measureFirst?: MeasureFirst;
  model: FellingModel;
}>;

/**
 * Makes the plan of a group as it was gathered.
 * @throws FellingError where the group cannot be planned as entered, or what was settled cannot be kept
 */
export function planGroup({ inputs, unplaced, restsOn, origin }: Gathered, asked: PlanAsked): FellingPlan {
  const own = laidOver(asked.own, asked.assumptions);
  const model = buildModel(inputs, assume(own.values));
  const { problem } = model;
  const labels = labelsOf(model);
  // Sentences about stems and ties between them go by what people call them.
  const byLabel = ({ stems }: OrderProblem) =>
    stems.map((stem, at) => ({ ...stem, id: labels[at] ?? stem.id }));
  const order = planOrder({
    ...problem,
    stems: byLabel(problem),
    fixed: (asked.settled ?? []).map((one) => fixedOf(one, model)),
  });
  const north = declination(origin, asked.when);
  const down = new Set<number>();
  const falls = order.steps.flatMap((step): PlannedFall[] => {
    const standing = (stem: number) => !down.has(stem);
    const fall = fallOf(model, step.stem, step.choice);
    const explanation = explain(model, step.stem, step.choice, standing);
    const of = model.stems[step.stem];
    if (fall === undefined || explanation === undefined || of === undefined) return [];
    const { filled } = of;
    const waysOut = escapeRoutes(
      filled.stem,
      step.aim,
      inTheWay(model, step.stem, standing),
      inputs.slope,
      model.assumed,
    );
    const worksheet = hingeWorksheet(filled, step.aim, asked.notch ?? 'open face', model.assumed);
    const around = { routes: waysOut.routes, ...(inputs.slope === undefined ? {} : { slope: inputs.slope }) };
    const made: PlannedFall = {
      stem: filled.stem.id,
      label: filled.stem.label,
      step,
      aim: fall,
      magnetic: isUnresolved(north) ? undefined : (step.aim - north.value + 720) % 360,
      explanation,
      waysOut,
      worksheet,
      sides: sawSides(filled, worksheet, inputs.saplings ?? [], around),
      filledBy: filled.filledBy,
    };
    down.add(step.stem);
    return [made];
  });
  return {
    group: { id: inputs.id, label: inputs.label },
    version: MODEL_VERSION,
    when: asked.when,
    aside: order.aside.map((one) => asideOf(one, model)),
    falls,
    totals: order.totals,
    levels: order.levels,
    exact: order.exact,
    limit: problem.limit,
    declination: isUnresolved(north) ? undefined : north.value,
    wind: inputs.wind ?? 0,
    changed: changesFrom(model.changed, own.recorded),
    unused: asked.own?.unused ?? [],
    unplaced,
    restsOn: [...restsOn, ...own.recorded.map(({ entry }) => entry)],
    after: afterPlan(model, order.steps),
    ...(asked.measureNext === true
      ? {
          measureFirst: measureFirst(model, order, (changed) => ({
            ...changed.problem,
            stems: byLabel(changed.problem),
            fixed: (asked.settled ?? []).flatMap((one) => stillFixed(one, changed)),
          })),
        }
      : {}),
    model,
  };
}

/** What people call the stems; two that are called alike are told apart. */
function labelsOf({ inputs: { stems } }: FellingModel): string[] {
  return stems.map(({ id, label }) =>
    stems.some((other) => other.id !== id && other.label === label) ? `${label} (${id.slice(-6)})` : label,
  );
}

/** Boles that stand and saplings, which a way out must not lead into. */
function inTheWay(model: FellingModel, stem: number, standing: (stem: number) => boolean): InTheWay[] {
  const { stems, inputs } = model;
  return [
    ...stems.flatMap(({ filled: { stem: one, halfWidth } }, at) =>
      at !== stem && standing(at) ? [{ ...one, radius: halfWidth }] : [],
    ),
    ...(inputs.leaveTrees ?? []).map((one) => ({ ...one, radius: (one.dbh ?? 0.3) / 2 })),
    ...(inputs.saplings ?? []).map((one) => ({ ...one, radius: one.radius ?? 0 })),
    ...(inputs.hazards ?? []).map((one) => ({ ...one, radius: 1 })),
    ...(inputs.onTheGround ?? []).flatMap(lyingInTheWay),
  ];
}

/** A stem that lies there already, as points half a metre apart; a stump is stepped over. */
function lyingInTheWay({ label, x, y, tip, dbh = 0.3 }: OnTheGround): InTheWay[] {
  if (tip === undefined) return [];
  const count = Math.max(1, Math.ceil(Math.hypot(tip.x - x, tip.y - y) * 2));
  return Array.from({ length: count + 1 }, (_, step) => ({
    label: `${label}, which lies there`,
    x: x + ((tip.x - x) * step) / count,
    y: y + ((tip.y - y) * step) / count,
    radius: dbh / 2,
  }));
}
