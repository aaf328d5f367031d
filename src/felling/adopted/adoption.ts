// A plan as the entry that adopts it: what it is known by, and what of it is kept so that the cut can be held against it.
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import canonicalize from 'canonicalize';
import { type FellingPlan, MODEL_VERSION, type PlannedFall } from '../plan/plan.ts';

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

/** A list in an entry holds so many at most. */
const LONGEST_LIST = 200;

/** The fields of "felling plan adopted". @param size how many entries the log held when the plan was computed */
export function adoption(plan: PlanSaid, size: number): Readonly<Record<string, unknown>> {
  const { group, falls, aside, restsOn, changed, wind } = plan;
  return {
    group: group.id,
    plan: planHash(plan),
    model: MODEL_VERSION,
    size: String(size),
    steps: falls.map((fall) => ({
      stem: fall.stem,
      aim: `${fall.step.aim.toFixed(1)} true`,
      left: fall.explanation.band.left.degrees.toFixed(1),
      right: fall.explanation.band.right.degrees.toFixed(1),
      hangUp: fall.step.hangUp.toFixed(4),
      saplings: saplingsStruck(fall).toFixed(3),
    })),
    ...(aside.length === 0 ? {} : { aside: aside.map(({ stem }) => stem) }),
    // Of a larger group the size of the log tells what it was computed from.
    ...(restsOn.length === 0 || restsOn.length > LONGEST_LIST ? {} : { restsOn }),
    ...(wind === 0 ? {} : { wind: plainDecimal(wind) }),
    ...(changed.length === 0
      ? {}
      : {
          assumed: changed.map(({ name, value, looser }) => ({
            name,
            value: plainDecimal(value),
            looser: looser ? 'yes' : 'no',
          })),
        }),
  };
}

/** How many saplings a fall is expected to strike, by bole or crown: the sum of the chances. */
function saplingsStruck({ explanation }: PlannedFall): number {
  return explanation.risks
    .filter(({ what }) => what === 'sapling')
    .reduce((sum, { chance }) => sum + chance, 0);
}

/** Without an exponent and without zeros at its end. */
function plainDecimal(value: number): string {
  return value.toFixed(9).replace(/\.?0+$/, '');
}
