// felling: what felling a stem can do, and what stands beside it: the cautions, the stop cards, the felling model (where a stem
// may lie, and what it may do there), the order of felling and the worksheets. Pure, for the phone runs it: looks into measure,
// place, events and stand, knows no logs and no screens, and never says "safe".
export {
  adoption,
  comparePlan,
  comparePlans,
  type FallCompared,
  foundWords,
  type PlanCompared,
  type PlanSaid,
  planHash,
} from './adopted/index.ts';
export type { AfterPlan } from './after/after.ts';
export type { Caution, CautionBasis } from './caution.ts';
export { type Cautions, cautions, cautionsMarkdown } from './cautions.ts';
export { FellingError } from './error.ts';
export { aimsOf, type FallLearned, type PersonAims } from './learn/index.ts';
export type { Assumption } from './model/assumption.ts';
export { ASSUMPTIONS, type AssumptionName } from './model/assumption-list.ts';
export {
  ASSUMPTION_NAMES,
  type Assumed,
  assume,
  type ChangedAssumption,
  changedAssumptions,
} from './model/assumptions.ts';
export { buildModel, type FellingModel, type ForbiddenAim, type StemModel } from './model/build.ts';
export { type Explanation, explain, type Landmark } from './model/explain.ts';
export type * from './model/inputs.ts';
export type { Risk } from './model/things.ts';
export {
  bestOfRandom,
  carefulGreedy,
  type Standing,
  toTheOpenSide,
  withTheLean,
} from './order/habits.ts';
export { type Judged, judged, type SequenceFall } from './order/judge.ts';
export { planOrder } from './order/plan.ts';
export type { Choice, Fixed, OrderProblem, Segment, StemChoices } from './order/problem.ts';
export { seeded } from './order/random.ts';
export { replanOrder, type Since } from './order/replan.ts';
export type { Level, More, OrderPlan, OtherAim, OtherStem, PlanStep, SetAside } from './order/result.ts';
export { type Measurement, mostTelling, type Telling } from './order/sensitivity.ts';
export type { PlannedAside } from './plan/aside.ts';
export { gatherAsked, type PlanTyped, type PlanWork, planAsked } from './plan/asked.ts';
export { defaultsOf, type OwnDefaults, type RecordedDefault, refusedDefaults } from './plan/defaults.ts';
export { planJson } from './plan/json.ts';
export { type FellingPlan, type PlannedFall, planGroup } from './plan/plan.ts';
export { stopsOf } from './plan/stops.ts';
export type { Aim, Method, RefusedAim } from './stem/aims.ts';
export { type EscapeRoute, type EscapeRoutes, escapeRoutes, type InTheWay } from './stem/escape.ts';
export { type HingeWorksheet, hingeWorksheet, NOTCH_METHODS, type NotchMethod } from './stem/hinge.ts';
export { type SawSide, type SidesAround, sawSides } from './stem/saw-side.ts';
export { type WedgeNeed, wedgeLimit, wedgeNeed } from './stem/wedges.ts';
export { farOffDegrees, stopReasons } from './stop.ts';
export { type StopCard, type StopReason, stopCards } from './stop-cards.ts';
export { planEndedCard } from './stop-plan.ts';
export { windWords } from './wind.ts';
