// Every felled stem as something to learn the direction error from, or why nothing is learned from it. A stem counts as the wood
// stood before it fell: rot that only its stump showed had widened nothing.
import type { HappenedEntered } from '../../events/index.ts';
import {
  type Folded,
  type Happening,
  locate,
  playBack,
  type Stand,
  type Stem,
  stemLabel,
} from '../../stand/index.ts';
import { conditionOf, heightBy, heightsOf, known, metresOf } from '../gather/stems.ts';
import { offBetween, placeNear, type Read, trueOf } from '../lay-off.ts';
import { USUAL } from '../model/assumptions.ts';
import { filled } from '../model/filled.ts';
import type { GroupStem, Lean } from '../model/inputs.ts';
import { widened } from '../stem/aims.ts';
import { windAt } from '../wind.ts';

type Felled = Readonly<{
  stem: string;
  label: string;
  /** Id of the entry, who felled it, and when. */
  entry: string;
  person: string;
  at: HappenedEntered;
}>;

/** A fall with an aim and a measured lay. Degrees. */
export type MeasuredFall = Felled &
  Readonly<{
    /** As they were read. */
    aimed: string;
    lay: string;
    /** Whether the feller recorded the aim, or the adopted plan gives it. */
    aimFrom: 'feller' | 'plan';
    /** From the aim to the lay; to the right positive. */
    off: number;
    /** What the model adds to its direction error for this stem, and what it multiplies the sum by. */
    added: number;
    times: number;
    came: 'down' | 'hung-up';
  }>;

/** A fall from which nothing is learned. */
export type UnmeasuredFall = Felled & Readonly<{ why: string }>;

export type Falls = Readonly<{ measured: readonly MeasuredFall[]; unmeasured: readonly UnmeasuredFall[] }>;

/** All falls that are in force, in order of happening. */
export function fallsIn(folded: Folded): Falls {
  const measured: MeasuredFall[] = [];
  const unmeasured: UnmeasuredFall[] = [];
  const heights = heightsOf(folded.stand);
  const look = (happening: Happening | undefined, before: Stand): void => {
    if (happening === undefined || !isInForce(happening, folded)) return;
    const fall = fallOf(happening, before, heights);
    if ('why' in fall) unmeasured.push(fall);
    else measured.push(fall);
  };
  let at = 0;
  // The stand is looked at after each happening for the one that comes next. The first of all opens the logbook.
  for (const { stand } of playBack(folded.happenings)) {
    at += 1;
    look(folded.happenings[at], stand);
  }
  return { measured, unmeasured };
}

/** Of a stem that is recorded as felled twice the last entry holds. */
function isInForce({ event, entry }: Happening, { stand }: Folded): boolean {
  return event.type === 'stem-felled' && stand.stems.get(event.body.stem)?.felling?.entry === entry.id;
}

function fallOf(
  { event, entry, happenedAt }: Happening,
  before: Stand,
  heights: ReturnType<typeof heightsOf>,
): MeasuredFall | UnmeasuredFall {
  if (event.type !== 'stem-felled') throw new TypeError(`${event.type} is no fall.`);
  const { stem: id, lay, aimed, asAimed, came, tag, layLength } = event.body;
  const stem = before.stems.get(id);
  const felled: Felled = {
    stem: id,
    label: stem === undefined ? (tag ?? 'a stem without a tag') : stemLabel(stem),
    entry: entry.id,
    person: entry.by,
    at: happenedAt,
  };
  const aim = aimOf(before, stem, aimed === undefined ? undefined : { azimuth: aimed, when: happenedAt.at });
  if (lay === undefined) return { ...felled, why: notMeasured(came, asAimed) };
  if (aim === undefined) return { ...felled, why: 'no aim was recorded' };
  const read: Read = { azimuth: lay, when: happenedAt.at };
  const off = offBetween(before, id, aim, read);
  if (off === undefined)
    return { ...felled, why: 'aim and lay were read from different norths, and no place tells how they lie' };
  const widening = wideningOf(before, { stem, aim, time: happenedAt.at, heights, long: metresOf(layLength) });
  if (widening === undefined) return { ...felled, why: 'it leans, and its height is not known' };
  return {
    ...felled,
    aimed: aim.azimuth.text,
    lay: lay.text,
    aimFrom: aimed === undefined ? 'plan' : 'feller',
    off,
    ...widening,
    came,
  };
}

function notMeasured(came: 'down' | 'hung-up', asAimed: boolean | undefined): string {
  if (came === 'hung-up') return 'it hung up, and its direction was not measured';
  return asAimed === true ? 'as aimed by eye, which is no measurement' : 'its lay was not measured';
}

/** What the feller recorded goes before the plan that was in force then. */
function aimOf(before: Stand, stem: Stem | undefined, own: Read | undefined): Read | undefined {
  if (own !== undefined) return own;
  const plan = planOf(before, stem);
  const step = plan?.body.steps.find((one) => one.stem === stem?.id);
  return plan === undefined || step === undefined ? undefined : { azimuth: step.aim, when: plan.at.at };
}

/** The plan in force, if the stem is one of its falls. */
function planOf(before: Stand, stem: Stem | undefined) {
  const plan = before.groups.get(stem?.group ?? '')?.plan;
  return plan?.body.steps.some((one) => one.stem === stem?.id) === true ? plan : undefined;
}

type Seen = Readonly<{
  stem: Stem | undefined;
  aim: Read;
  time: string;
  heights: ReturnType<typeof heightsOf>;
  /** Length on the ground, metres; stands in for a height that nobody measured. */
  long: number | undefined;
}>;

/** What the model widens its direction error by, for this stem and aim. Undefined where a lean has no height to be held against. */
function wideningOf(
  before: Stand,
  { stem, aim, time, heights, long }: Seen,
): Pick<MeasuredFall, 'added' | 'times'> | undefined {
  const locator = locate(before);
  const at = stem === undefined ? undefined : placeNear(before, stem.id, locator);
  // Without any place all is taken from the north that the aim was read from.
  const degrees = (read: Read) =>
    at === undefined && read.azimuth.reference === aim.azimuth.reference
      ? Number(read.azimuth.value)
      : trueOf(read, at, locator);
  const amount = metresOf(stem?.lean?.offset);
  const azimuth = stem?.lean === undefined ? undefined : degrees({ azimuth: stem.lean.azimuth, when: time });
  const lean: Lean | undefined =
    amount === undefined || azimuth === undefined ? undefined : { amount, azimuth, reference: 'true' };
  const dbh = metresOf(stem?.dbh) ?? USUAL.leaveTreeDbh;
  const height = metresOf(stem?.height) ?? long ?? heightBy(heights, dbh);
  if (lean !== undefined && height === undefined) return undefined;
  const direction = degrees(aim) ?? 0;
  // Upright as far as anybody knows, its error is a share of its height, so that any height gives the same.
  const model = known<GroupStem>({
    id: '',
    label: '',
    x: 0,
    y: 0,
    dbh,
    height: Math.max(height ?? ANY_HEIGHT, amount ?? 0),
    lean,
    seam: stem !== undefined && stem.seams.length > 0 ? true : undefined,
    ...(stem === undefined ? {} : conditionOf(stem)),
  });
  // Where nobody noted the wind, it was as the plan had it.
  const planned = planOf(before, stem)?.body.wind;
  const wind =
    windAt(before, stem?.group, time)?.metresPerSecond ??
    (planned === undefined ? undefined : Number(planned));
  return widened(filled(model, USUAL), direction, undefined, wind === undefined ? {} : { wind }, USUAL);
}

const ANY_HEIGHT = 20;
