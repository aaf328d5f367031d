// An adopted plan: the entry that keeps it, and whether it still holds. Whatever contradicts what it was computed from ends it.
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import canonicalize from 'canonicalize';
import { isUnresolved, toTrueAzimuth } from '../../place/index.ts';
import {
  type Folded,
  instantOf,
  isDecay,
  locate,
  type Stand,
  type Stem,
  saplingLabel,
  stemLabel,
} from '../../stand/index.ts';
import { turn } from '../model/fall.ts';
import { type FellingPlan, MODEL_VERSION } from './plan.ts';

/** What a plan is computed from of the time: the day (UTC), for magnetic north. */
export function dayOf(time: string): string {
  return new Date(time).toISOString().slice(0, 10);
}

/** A plan without the tables of its model, as it goes from one thread to another. */
export type PlanSaid = Omit<FellingPlan, 'model'>;

/** What the plan is known by: the SHA-256 of what it says, in canonical form (RFC 8785). */
export function planHash({ group, version, when, falls, aside, limit, changed, restsOn }: PlanSaid): string {
  const said = {
    group: group.id,
    version,
    day: dayOf(when),
    limit,
    changed: changed.map(({ name, value }) => ({ name, value })),
    steps: falls.map(({ stem, step: { aim, hangUp, loss } }) => ({ stem, aim, hangUp, loss })),
    aside: aside.map(({ stem }) => stem),
    restsOn,
  };
  return bytesToHex(sha256(new TextEncoder().encode(canonicalize(said))));
}

/** The fields of "felling plan adopted". @param size how many entries the log held when the plan was computed */
export function adoption(plan: PlanSaid, size: number): Readonly<Record<string, unknown>> {
  const { group, falls, aside, restsOn } = plan;
  return {
    group: group.id,
    plan: planHash(plan),
    model: MODEL_VERSION,
    size: String(size),
    steps: falls.map(({ stem, step, explanation: { band } }) => ({
      stem,
      aim: `${step.aim.toFixed(1)} true`,
      left: band.left.degrees.toFixed(1),
      right: band.right.degrees.toFixed(1),
      hangUp: step.hangUp.toFixed(4),
    })),
    ...(aside.length === 0 ? {} : { aside: aside.map(({ stem }) => stem) }),
    // A list in an entry holds 200 at most. Of a larger group the size of the log tells what it was computed from.
    ...(restsOn.length === 0 || restsOn.length > 200 ? {} : { restsOn }),
  };
}

/** One stem of an adopted plan, held against what happened. Degrees; positive to the right of the aim. */
export type FallCompared = Readonly<{
  stem: string;
  label: string;
  /** Place in the plan, and among the stems that were felled since; from 1. */
  planned: number;
  felled: number | undefined;
  aim: number;
  /** Only a lay that was measured counts. */
  off: number | undefined;
  came: 'down' | 'hung-up' | 'standing' | 'otherwise';
}>;

export type PlanCompared = Readonly<{
  entry: string;
  /** Empty while the plan holds; else why it does not, sentence by sentence. */
  ended: readonly string[];
  next: string | undefined;
  falls: readonly FallCompared[];
}>;

/** Holds the plan that a group adopted last against what was recorded since; undefined without one. */
export function comparePlan({ stand, entries }: Folded, group: string): PlanCompared | undefined {
  const plan = stand.groups.get(group)?.plan;
  if (plan === undefined) return undefined;
  const since = instantOf(plan.at);
  const later = (id: string): boolean => {
    const entry = entries.get(id);
    return entry !== undefined && id !== plan.entry && instantOf(entry.happenedAt) > since;
  };
  const order = plan.body.steps
    .flatMap(({ stem }) => {
      const felling = stand.stems.get(stem)?.felling;
      return felling === undefined ? [] : [{ stem, instant: instantOf(felling.at) }];
    })
    .sort((one, other) => one.instant - other.instant)
    .map(({ stem }) => stem);
  const falls = plan.body.steps.map((step, at) => fallCompared(stand, step, at, order));
  const next = falls.find(({ came }) => came === 'standing')?.stem;
  return { entry: plan.entry, falls, next, ended: reasonsEnded(stand, plan.body, falls, later) };
}

type Adopted = NonNullable<ReturnType<Stand['groups']['get']>>['plan'] & object;
type Step = Adopted['body']['steps'][number];

function fallCompared(
  stand: Stand,
  { stem: id, aim }: Step,
  at: number,
  order: readonly string[],
): FallCompared {
  const stem = stand.stems.get(id);
  const felled = order.indexOf(id) + 1;
  const planned = Number(aim.value);
  return {
    stem: id,
    label: stemLabel(stem),
    planned: at + 1,
    felled: felled === 0 ? undefined : felled,
    aim: planned,
    off: offAim(stand, id, planned),
    came:
      stem === undefined || stem.status === 'standing' || stem.status === 'dead'
        ? 'standing'
        : (stem.felling?.came ?? 'otherwise'),
  };
}

function offAim(stand: Stand, id: string, aim: number): number | undefined {
  const felling = stand.stems.get(id)?.felling;
  if (felling?.lay === undefined) return undefined;
  const locator = locate(stand);
  const place = locator.stem(id);
  if (felling.lay.reference === 'true') return turn(Number(felling.lay.value) - aim);
  if (isUnresolved(place)) return undefined;
  const lay = toTrueAzimuth(felling.lay, place.at, felling.at.at, locator.declination);
  return isUnresolved(lay) ? undefined : turn(lay.value - aim);
}

type Later = (entry: string) => boolean;

function reasonsEnded(
  stand: Stand,
  body: Adopted['body'],
  falls: readonly FallCompared[],
  later: Later,
): string[] {
  return [
    ...new Set([
      ...falls.flatMap((fall) => fromFall(fall, body, falls)),
      ...[...stand.stems.values()].flatMap((stem) => fromStem(stem, body, later)),
      ...fromAround(stand, body, later),
    ]),
  ];
}

/** What a fall of the plan did otherwise than planned. */
function fromFall(
  { label, came, off, felled, planned, stem }: FallCompared,
  { steps }: Adopted['body'],
  falls: readonly FallCompared[],
): string[] {
  const step = steps.find((one) => one.stem === stem);
  const reasons: string[] = [];
  if (came === 'hung-up') reasons.push(`${label} hung up.`);
  if (came === 'otherwise') reasons.push(`${label} came down otherwise than by felling.`);
  if (off !== undefined && step !== undefined && isOutside(off, step))
    reasons.push(
      `${label} lies ${Math.abs(off).toFixed(0)}° ${off < 0 ? 'left' : 'right'} of its aim, outside its band.`,
    );
  if (felled !== undefined && felled !== planned && falls.some((one) => one.came === 'standing'))
    reasons.push(`${label} was felled out of its order.`);
  return reasons;
}

/** What was recorded of a stem since that the plan did not know. */
function fromStem(stem: Stem, { steps, aside = [], group }: Adopted['body'], later: Later): string[] {
  const label = stemLabel(stem);
  const planned = steps.some((step) => step.stem === stem.id);
  const setAside = aside.includes(stem.id);
  if (setAside && stem.felling !== undefined && later(stem.felling.entry))
    return [`${label} was set aside by the plan and was felled.`];
  if (planned && stem.decay !== undefined && later(stem.decay.entry) && isSurprise(stem))
    return [`${label} showed rot that nobody had noted; the others may have it too.`];
  const isUp = stem.status === 'standing' || stem.status === 'dead';
  if (!isUp || stem.group !== group) return [];
  if (planned && stem.mark !== 'cut') return [`${label} is not to be cut any more.`];
  if (planned && stem.entries.some(later)) return [`Something new was recorded of ${label} since.`];
  return stem.mark === 'cut' && !planned && !setAside
    ? [`${label} is to be cut and is not in the plan.`]
    : [];
}

/** Hazards, and saplings that are not as they were. */
function fromAround(
  { hazards, saplings, patches }: Stand,
  { group, steps }: Adopted['body'],
  later: Later,
): string[] {
  const planned = new Set(steps.map(({ stem }) => stem));
  const dangers = [...hazards.values()].filter(
    (hazard) => hazard.entries.some(later) && (hazard.group === group || planned.has(hazard.stem ?? '')),
  );
  const young = [...saplings.values(), ...patches.values()].filter(
    (sapling) =>
      sapling.group === group &&
      sapling.entries.some(later) &&
      sapling.checks.at(-1)?.condition !== 'unharmed',
  );
  return [
    ...(dangers.length === 0 ? [] : ['A hazard was noted or cleared since.']),
    ...young.map((sapling) => `${saplingLabel(sapling)} was recorded anew.`),
  ];
}

function isOutside(off: number, { left, right }: Step): boolean {
  const band = off < 0 ? left : right;
  return band !== undefined && Math.abs(off) > Number(band);
}

/** Rot that nothing had shown from outside. */
function isSurprise({ decaySigns, decay }: Stem): boolean {
  return decaySigns.length === 0 && decay !== undefined && isDecay(decay.body.found);
}
