// From a group as it stands to the numbers that an order is computed from: the aims each stem can take, what each costs, and
// what stands in its way. What was refused, and why, is kept beside it.
import type { Choice, OrderProblem } from '../order/problem.ts';
import { type Aim, aimAt, type RefusedAim } from '../stem/aims.ts';
import { seen } from './around.ts';
import { type Assumed, type ChangedAssumption, changedAssumptions, USUAL } from './assumptions.ts';
import { checkInputs, withheldBecause } from './check-inputs.ts';
import { type Fall, turn } from './fall.ts';
import { type FilledStem, filled, filledLeaveTree } from './filled.ts';
import { type HangUpMap, hangUpChance, hangUpMap, type Obstacle, obstacle, segments } from './hang-up.ts';
import type { GroupInputs, GroupStem } from './inputs.ts';
import { crownsMeet, type Risk, type Thing, thingsAround } from './things.ts';

/** A direction that something forbids which lies there: what it is, and how likely it would be reached. */
export type ForbiddenAim = Readonly<{ aim: number; risk: Risk }>;

/** One stem as the planner sees it. `aims` run parallel to the choices of the problem. */
export type StemModel = Readonly<{
  filled: FilledStem;
  aims: readonly Aim[];
  refused: readonly RefusedAim[];
  forbidden: readonly ForbiddenAim[];
  /** Why nothing is planned for it at all, a sentence. */
  withheld?: string;
  things: readonly Thing[];
  map: HangUpMap;
}>;

export type FellingModel = Readonly<{
  inputs: GroupInputs;
  assumed: Assumed;
  changed: readonly ChangedAssumption[];
  stems: readonly StemModel[];
  problem: OrderProblem;
}>;

/** Degrees between the aims first looked at, and between those looked at beside the best of them. */
const GRID = 5;
const FINER = 2.5;
/** Beside how many of the best aims of a stem the finer ones are looked at. */
const REFINED = 4;
/** How many saplings' worth a hang-up counts when the best aims are picked out for that; the order has its own rule. */
const HANG_UP_WORTH = 50;

/**
 * Makes the order problem of a group.
 * @param also aims to look at besides the usual ones, by stem id
 * @throws FellingError when the group cannot be planned as it was entered
 */
export function buildModel(
  inputs: GroupInputs,
  assumed: Assumed = USUAL,
  also: AlsoAims = new Map(),
): FellingModel {
  const stems = inputs.stems.map((stem) => filled(stem, assumed));
  checkInputs(inputs, stems);
  const group = { inputs, assumed, stems, also };
  return assembled(
    inputs,
    assumed,
    stems.map((_, index) => stemModel(index, group)),
  );
}

/** Puts the models of single stems together into the one of the group. */
export function assembled(inputs: GroupInputs, assumed: Assumed, models: readonly Built[]): FellingModel {
  const stems = models.map(({ model }) => model.filled);
  const at = new Map(inputs.stems.map(({ id }, index) => [id, index]));
  const marked = (of: (stem: GroupStem) => boolean | undefined) =>
    stems.flatMap(({ stem }, index) => (of(stem) === true ? [index] : []));
  const hazards = marked(({ hazardFirst }) => hazardFirst);
  return {
    inputs,
    assumed,
    changed: changedAssumptions(assumed),
    stems: models.map(({ model }) => model),
    problem: {
      stems: models.map(({ choices }, index) => ({ id: inputs.stems[index]?.id ?? '', choices })),
      before: [
        ...(inputs.before ?? []).map(([a, b]) => [at.get(a) ?? 0, at.get(b) ?? 0] as const),
        ...hazards.flatMap((hazard) => waitingFor(hazard, hazards, stems, assumed)),
      ],
      last: marked(({ bumper }) => bumper).filter((index) => !hazards.includes(index)),
      limit: assumed.hangUpLimit,
      tolerance: assumed.tolerance,
    },
  };
}

/** A hazard comes down before anybody works or anything falls within two lengths of it, or of what could strike it. */
function waitingFor(
  hazard: number,
  hazards: readonly number[],
  stems: readonly FilledStem[],
  { hazardLengths }: Assumed,
): (readonly [number, number])[] {
  const danger = stems[hazard];
  if (danger === undefined) return [];
  return stems.flatMap((other, index) => {
    const near = hazardLengths * Math.max(danger.height, other.height);
    const waits = !hazards.includes(index) && seen(other.stem, danger.stem).distance <= near;
    return waits ? [[hazard, index] as const] : [];
  });
}

type Found = Readonly<{ aim: Aim; choice: Choice }>;

/** Aims to look at besides the usual ones, by stem id. */
export type AlsoAims = ReadonlyMap<string, number>;

/** One stem as the planner sees it, with what an order is computed from. */
export type Built = Readonly<{ model: StemModel; choices: readonly Choice[] }>;

/**
 * Looks at one stem of a group.
 * @param known what was worked out before and has not changed since
 */
export function stemModel(
  index: number,
  group: Readonly<{ inputs: GroupInputs; assumed: Assumed; stems: readonly FilledStem[]; also: AlsoAims }>,
  known: Partial<Pick<StemModel, 'things' | 'map'>> = {},
): Built {
  const { inputs, assumed, stems, also } = group;
  const stem = stems[index] as FilledStem;
  const others = stems.filter((_, other) => other !== index);
  const things = known.things ?? thingsAround(stem, others, inputs, assumed);
  const map = known.map ?? hangUpMap(stem, obstaclesOf(index, stem, stems, inputs, assumed));
  const withheld = withheldBecause(stem, inputs, assumed);
  const bare = { filled: stem, things, map };
  if (withheld !== undefined)
    return { model: { ...bare, aims: [], refused: [], forbidden: [], withheld }, choices: [] };

  const refused: RefusedAim[] = [];
  const forbidden: ForbiddenAim[] = [];
  const look = (direction: number): readonly Found[] => {
    const aim = aimAt(stem, direction, inputs, assumed);
    if ('why' in aim) {
      refused.push(aim);
      return [];
    }
    const risks = things.flatMap((thing) => thing(aim));
    const over = worstOverLimit(risks);
    if (over !== undefined) {
      forbidden.push({ aim: aim.aim, risk: over });
      return [];
    }
    const loss = risks.reduce((sum, risk) => sum + risk.loss, 0);
    return [{ aim, choice: { aim: aim.aim, loss, segments: segments(aim, map) } }];
  };
  const start = stem.lean.azimuth ?? 0;
  const coarse = Array.from({ length: 360 / GRID }, (_, step) => start + step * GRID).flatMap(look);
  const usual = [...coarse, ...finer(coarse).flatMap(look)];
  const besides = also.get(stem.stem.id);
  const isNew = besides !== undefined && usual.every(({ aim }) => Math.abs(turn(aim.aim - besides)) > 1e-6);
  const found = [...usual, ...(isNew ? look(besides) : [])].sort(better);
  return {
    model: { ...bare, aims: found.map(({ aim }) => aim), refused, forbidden },
    choices: found.map(({ choice }) => choice),
  };
}

/** What of a group can hold one of its stems. A stem much thinner than the falling one is broken over and holds nothing. */
export function obstaclesOf(
  index: number,
  falling: FilledStem,
  stems: readonly FilledStem[],
  { leaveTrees = [] }: GroupInputs,
  assumed: Assumed,
): Obstacle[] {
  const how = crownsMeet(assumed);
  const holds = ({ dbh }: { dbh: number }) => dbh >= assumed.brokenOver * falling.dbh;
  const group = stems.flatMap((standing, other) => {
    if (other === index || !holds(standing)) return [];
    const { halfWidth, crownRadius, stem } = standing;
    return [obstacle(falling, { stem: other, ...seen(falling.stem, stem), halfWidth, crownRadius }, how)];
  });
  const staying = leaveTrees.flatMap((given) => {
    const tree = filledLeaveTree(given, assumed);
    const { halfWidth, crownRadius } = tree;
    if (!holds(tree)) return [];
    return [obstacle(falling, { ...seen(falling.stem, tree), halfWidth, crownRadius }, how)];
  });
  return [...group, ...staying];
}

/** The thing whose limit is exceeded most, if any is. */
export function worstOverLimit(risks: readonly Risk[]): Risk | undefined {
  const excess = ({ chance, limit = 1 }: Risk) => chance - limit;
  return risks.filter((risk) => excess(risk) > 0).sort((a, b) => excess(b) - excess(a))[0];
}

/** Directions half-way to the neighbours of the best aims. */
function finer(coarse: readonly Found[]): readonly number[] {
  const harm = ({ choice }: Found) => choice.loss + HANG_UP_WORTH * hangUpChance(choice.segments, () => true);
  const rated = coarse.map((found) => ({ aim: found.aim.aim, harm: harm(found) }));
  const best = rated.sort((a, b) => a.harm - b.harm || a.aim - b.aim).slice(0, REFINED);
  const near = new Map<string, number>();
  for (const { aim } of best)
    for (const direction of [aim - FINER, aim + FINER])
      near.set((((direction % 360) + 360) % 360).toFixed(3), direction);
  return [...near.values()];
}

const LIKED = { 'with the lean': 0, wedges: 1, winch: 2 } as const;

/** With the lean before against it, then the least off it, then the least loss; the azimuth settles what is equal. */
function better(a: Found, b: Found): number {
  return (
    LIKED[a.aim.method] - LIKED[b.aim.method] ||
    Math.abs(a.aim.fromLean ?? 0) - Math.abs(b.aim.fromLean ?? 0) ||
    a.choice.loss - b.choice.loss ||
    a.aim.aim - b.aim.aim
  );
}

/** The fall that a choice stands for. */
export function fallOf(model: FellingModel, stem: number, choice: number): (Fall & Aim) | undefined {
  return model.stems[stem]?.aims[choice];
}
