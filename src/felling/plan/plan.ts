// A plan for one group: the order and the aims, each explained, with what is set aside and why. It computes consequences of
// a choice; it never says that a fall is without danger, and a trained person on site decides.
import { declination, isUnresolved } from '../../place/index.ts';
import { FellingError } from '../error.ts';
import type { Gathered } from '../gather/index.ts';
import { assume, type ChangedAssumption } from '../model/assumptions.ts';
import { buildModel, type FellingModel, fallOf } from '../model/build.ts';
import { type Explanation, explain } from '../model/explain.ts';
import { turn } from '../model/fall.ts';
import type { FilledBy } from '../model/filled.ts';
import { planOrder } from '../order/plan.ts';
import type { Fixed } from '../order/problem.ts';
import type { OrderPlan, PlanStep, SetAside } from '../order/result.ts';
import type { Aim, RefusedAim } from '../stem/aims.ts';
import { type EscapeRoutes, escapeRoutes, type InTheWay } from '../stem/escape.ts';
import { type HingeWorksheet, hingeWorksheet } from '../stem/hinge.ts';
import { type SawSide, sawSides } from '../stem/saw-side.ts';

/** Version of the model, kept with every plan that is adopted. */
export const MODEL_VERSION = 'lay-1';

/** What somebody settled before the plan is made. Azimuths in degrees from true north, places counted from 0. */
export type Settled = Readonly<{ stem: string; aim?: number; place?: number }>;

export type PlanAsked = Readonly<{
  /** RFC 3339; the day that magnetic north is taken at. */
  when: string;
  /** Assumptions that are not at their defaults, by name. */
  assumptions?: Readonly<Record<string, number>>;
  settled?: readonly Settled[];
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
  /** What nobody measured, and which assumptions stand in for it. */
  filledBy: readonly FilledBy[];
}>;

/** A stem that stays standing, with what would change that. */
export type PlannedAside = Readonly<{
  stem: string;
  label: string;
  because: string;
  /** What would have to be otherwise; each a sentence. */
  remedies: readonly string[];
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
  changed: readonly ChangedAssumption[];
  unplaced: Gathered['unplaced'];
  restsOn: readonly string[];
  model: FellingModel;
}>;

/**
 * Makes the plan of a group as it was gathered.
 * @throws FellingError where the group cannot be planned as entered, or what was settled cannot be kept
 */
export function planGroup({ inputs, unplaced, restsOn, origin }: Gathered, asked: PlanAsked): FellingPlan {
  const model = buildModel(inputs, assume(asked.assumptions));
  const labels = labelsOf(model);
  const { problem } = model;
  const order = planOrder({
    ...problem,
    // Sentences about stems and ties between them go by what people call them.
    stems: problem.stems.map((stem, at) => ({ ...stem, id: labels[at] ?? stem.id })),
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
    const made: PlannedFall = {
      stem: filled.stem.id,
      label: filled.stem.label,
      step,
      aim: fall,
      magnetic: isUnresolved(north) ? undefined : (step.aim - north.value + 720) % 360,
      explanation,
      waysOut: escapeRoutes(filled.stem, step.aim, inTheWay(model, step.stem, standing), inputs.slope),
      worksheet: hingeWorksheet(filled, step.aim, 'open face', model.assumed),
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
    changed: model.changed,
    unplaced,
    restsOn,
    model,
  };
}

/** What people call the stems; two that are called alike are told apart. */
function labelsOf({ inputs: { stems } }: FellingModel): string[] {
  return stems.map(({ id, label }) =>
    stems.some((other) => other.id !== id && other.label === label) ? `${label} (${id.slice(-6)})` : label,
  );
}

/** An aim that is settled is the nearest that was looked at, unless it is farther off than aims are apart. */
function fixedOf({ stem, aim, place }: Settled, model: FellingModel): Fixed {
  const at = model.inputs.stems.findIndex(({ id }) => id === stem);
  const of = model.stems[at];
  if (of === undefined)
    throw new FellingError(
      'fix',
      stem,
      'This stem is not to be felled in the group.',
      'Name one that is marked to be cut in it and stands.',
    );
  const settled = place === undefined ? { stem: at } : { stem: at, place };
  if (aim === undefined) return settled;
  const { label } = of.filled.stem;
  const near = <T extends { aim: number }>(aims: readonly T[]): T | undefined =>
    aims
      .filter((one) => Math.abs(turn(one.aim - aim)) <= APART)
      .sort((one, other) => Math.abs(turn(one.aim - aim)) - Math.abs(turn(other.aim - aim)))[0];
  const found = near(of.aims);
  if (found !== undefined) return { ...settled, choice: of.aims.indexOf(found) };
  const refused = near(of.refused);
  const forbidden = near(of.forbidden);
  const why =
    refused === undefined
      ? forbidden === undefined
        ? 'it was not looked at'
        : `${forbidden.risk.label} would be reached`
      : refusedWords[refused.why];
  throw new FellingError(
    'fix',
    `${label}=${aim}`,
    `${label} cannot be aimed at ${aim}°: ${why}.`,
    'Take another aim.',
  );
}

/** Half of what aims lie apart, degrees. */
const APART = 2.5;

/** Why a direction was not aimed at, as the end of a sentence. */
const refusedWords: Readonly<Record<RefusedAim['why'], string>> = {
  'narrow band': 'a decayed, dead, seamed or forked stem is aimed near its lean only',
  'side lean': 'the lean to the side is more than the limit',
  'back lean, no wedges': 'it leans back, and no wedges were said to be at hand',
  'back lean beyond wedges': 'it leans back farther than wedges are reckoned to lift it',
  'back lean, no figure': 'it leans back, and the published table has no figure for so short a stem',
  'back lean beyond the winch': 'it leans back farther than a winch is reckoned to pull it',
  uphill: 'it is too steep uphill',
  'direction error': 'nobody can tell well enough where it would go',
};

/** What would help against each reason. */
const remedyFor: Readonly<Record<RefusedAim['why'], string>> = {
  'narrow band': 'Leave it, or have somebody trained take it with a winch and a rope, or a climber.',
  'side lean': 'Measure its lean; a rope and winch at the side are for trained people.',
  'back lean, no wedges': 'With wedges more directions can be aimed at (--wedges).',
  'back lean beyond wedges': 'With a winch more directions can be aimed at (--winch); that takes training.',
  'back lean, no figure': 'A winch or a rope would be needed (--winch); that takes training.',
  'back lean beyond the winch': 'Leave it, or get help with a machine.',
  uphill: 'Leave it, or get help: uphill it can slide back.',
  'direction error': 'Measure lean, height and crown; or leave it.',
};

function asideOf({ stem, because, causes }: SetAside, model: FellingModel): PlannedAside {
  const of = model.stems[stem];
  const { id = '', label = '' } = of?.filled.stem ?? {};
  if (of?.withheld !== undefined) return { stem: id, label, because: of.withheld, remedies: [] };
  const refused = new Set((of?.refused ?? []).map(({ why }) => why));
  const forbidden = new Set((of?.forbidden ?? []).map(({ risk }) => risk.label));
  const others = causes.flatMap((cause) => model.inputs.stems[cause]?.label ?? []);
  return {
    stem: id,
    label,
    because,
    remedies: [
      ...[...refused].map((why) => remedyFor[why]),
      ...(forbidden.size === 0 ? [] : [`Directions were left out because of ${[...forbidden].join(', ')}.`]),
      ...(others.length === 0
        ? []
        : [`It would help if ${others.join(' or ')} came down first some other way.`]),
      'Leave it standing: that is a choice too.',
    ].filter((remedy, at, all) => all.indexOf(remedy) === at),
  };
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
  ];
}

/** The saplings that grow against the stump of a fall, with the side to work from. */
export function saplingsAtStump(
  { model }: FellingPlan,
  { stem, worksheet, waysOut }: PlannedFall,
): readonly SawSide[] {
  const filled = model.stems.find((one) => one.filled.stem.id === stem)?.filled;
  if (filled === undefined) return [];
  const { slope, saplings = [] } = model.inputs;
  return sawSides(filled, worksheet, saplings, {
    routes: waysOut.routes,
    ...(slope === undefined ? {} : { slope }),
  });
}
