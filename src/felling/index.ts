// felling: what felling a stem can do, and what stands beside it. So far the cautions and the stop cards; the lay model,
// the order of felling and the worksheets will live here. Pure, for the phone runs it: looks into measure, place,
// events and stand, knows no logs and no screens, and never says "safe".
export type { Caution, CautionBasis } from './caution.ts';
export { type Cautions, cautions, cautionsMarkdown } from './cautions.ts';
export { FellingError } from './error.ts';
export { planOrder } from './order/plan.ts';
export type { Choice, Fixed, OrderProblem, Segment, StemChoices } from './order/problem.ts';
export { seeded } from './order/random.ts';
export type { Level, More, OrderPlan, OtherAim, OtherStem, PlanStep, SetAside } from './order/result.ts';
export { farOffDegrees, stopReasons } from './stop.ts';
export { type StopCard, type StopReason, stopCards } from './stop-cards.ts';
