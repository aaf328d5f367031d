// Which way a stem can be aimed, by what method, and how well it then goes there.
import type { Assumed } from '../model/assumptions.ts';
import { azimuth, DEGREES, turn } from '../model/fall.ts';
import type { FilledStem } from '../model/filled.ts';
import type { GroundSlope, Tools } from '../model/inputs.ts';
import { type WedgeNeed, wedgeLimit, wedgeNeed } from './wedges.ts';

export type Method = 'with the lean' | 'wedges' | 'winch';

/** A direction that can be aimed at. Metres, degrees; says nothing about what is in the way. */
export type Aim = Readonly<{
  aim: number;
  method: Method;
  /** Degrees from the lean; left out for an upright stem. */
  fromLean?: number;
  sideLean: number;
  /** At its upper error; 0 when the lean is forward even then. */
  backLean: number;
  /** For wedges: what they have to do, and the share of the limit used of what they can. */
  wedges?: WedgeNeed & Readonly<{ allowed: number }>;
  /** For a winch: the pull at the top, as a share of the weight of the stem, that only balances the back lean. */
  pull?: number;
  directionError: number;
  /** What the slope may do with the stem once it lies. */
  afterwards: readonly ('can roll' | 'can slide')[];
}>;

/** Why a direction is not aimed at. */
export type RefusedAim = Readonly<{
  aim: number;
  why:
    | 'narrow band'
    | 'side lean'
    | 'back lean, no wedges'
    | 'back lean beyond wedges'
    | 'back lean, no figure'
    | 'back lean beyond the winch'
    | 'uphill'
    | 'direction error';
}>;

export type Site = Readonly<{ slope?: GroundSlope; wind?: number; tools?: Tools }>;

/** How deep a notch usually is, as a share of the diameter; from the hinge to the back is what is left. Washington WAC 296-54-53910. */
export const NOTCH_SHARE = 1 / 4;

/** One direction: how it can be aimed at, or why not. */
export function aimAt(stem: FilledStem, aim: number, site: Site, assumed: Assumed): Aim | RefusedAim {
  const direction = azimuth(aim);
  const refuse = (why: RefusedAim['why']): RefusedAim => ({ aim: direction, why });
  if (isUphill(direction, site.slope, assumed)) return refuse('uphill');
  const { height } = stem;
  const { off, upright, within, sideLean, backLean } = againstLean(stem, direction, assumed);
  if ((stem.compromised || stem.dead) && !within) return refuse('narrow band');
  if (sideLean > assumed.sideLean * height + 1e-9) return refuse('side lean');
  const how = within ? { method: 'with the lean' as const } : against(stem, backLean, site, assumed);
  if (typeof how === 'string') return refuse(how);
  const { added, times } = widened(stem, direction, how.method, site, assumed);
  const directionError = (assumed.directionError + added) * times;
  if (directionError > assumed.widestDirectionError) return refuse('direction error');
  return {
    aim: direction,
    ...how,
    ...(off === undefined || upright ? {} : { fromLean: off }),
    sideLean,
    backLean: within ? 0 : backLean,
    directionError,
    afterwards: afterwards(direction, site.slope, assumed),
  };
}

/** How a direction lies to the lean of a stem. */
function againstLean({ lean, height, compromised, dead }: FilledStem, direction: number, assumed: Assumed) {
  const upright = lean.azimuth === undefined || lean.amount < assumed.uprightLean * height;
  const off = lean.azimuth === undefined ? undefined : turn(direction - lean.azimuth);
  const band = compromised || dead ? assumed.aimFromLeanDecayed : assumed.aimFromLean;
  // The error may turn the lean as well as lengthen it, so it is laid straight against the aim.
  const upper = assumed.leanUpperErrors * lean.error;
  return {
    off,
    upright,
    within: !upright && off !== undefined && Math.abs(off) <= band + 1e-9,
    sideLean: lean.amount * Math.abs(Math.sin((off ?? 0) / DEGREES)),
    backLean: Math.max(0, upper - lean.amount * Math.cos((off ?? 0) / DEGREES)),
  };
}

type How = Pick<Aim, 'method' | 'wedges' | 'pull'>;

/** Beyond the band: with wedges where they reach, with a winch where there is one. */
function against(
  stem: FilledStem,
  backLean: number,
  { tools }: Site,
  assumed: Assumed,
): How | RefusedAim['why'] {
  const { height, dbh, stumpDiameter } = stem;
  let why: RefusedAim['why'] = 'back lean, no wedges';
  if (tools?.wedges !== false) {
    const hingeToBack = stumpDiameter * (1 - NOTCH_SHARE);
    const { limit } = wedgeLimit(height, dbh, hingeToBack, assumed.wedgeThickness);
    const need = wedgeNeed(backLean, height, hingeToBack, assumed.kerf);
    const allowed = (limit ?? 0) * assumed.wedgeShare;
    if (limit !== undefined && backLean <= allowed && need.thickness <= assumed.wedgeThickness)
      return { method: 'wedges', wedges: { ...need, allowed } };
    why = limit === undefined ? 'back lean, no figure' : 'back lean beyond wedges';
  }
  if (tools?.winch !== true) return why;
  if (backLean > assumed.winchBackLean * height) return 'back lean beyond the winch';
  // Moments about the hinge, pulled level from the top with the weight half-way up: half the back lean against the height.
  return { method: 'winch', pull: backLean / 2 / height };
}

/**
 * What widens the direction error of a stem beyond that of a sound one felled with its lean: degrees that are added to it, and
 * what the sum is multiplied by. Left out, the method is the one that the lean calls for.
 */
export function widened(
  stem: FilledStem,
  direction: number,
  method: Method | undefined,
  { wind = 0 }: Site,
  assumed: Assumed,
): Readonly<{ added: number; times: number }> {
  const { within, sideLean, backLean } = againstLean(stem, direction, assumed);
  const leaning = (100 * (sideLean + (within ? 0 : backLean))) / stem.height;
  const isPulled = method === undefined ? !within : method !== 'with the lean';
  return {
    added:
      assumed.directionErrorPerLean * leaning +
      assumed.directionErrorPerWind * wind +
      (isPulled ? assumed.directionErrorPulled : 0),
    times:
      (stem.compromised ? assumed.directionErrorDecayed : 1) * (stem.dead ? assumed.directionErrorDead : 1),
  };
}

function isUphill(
  aim: number,
  slope: GroundSlope | undefined,
  { uphillSlope, uphillAngle }: Assumed,
): boolean {
  if (slope === undefined || slope.percent <= uphillSlope) return false;
  return Math.abs(turn(aim - slope.aspect - 180)) < uphillAngle;
}

function afterwards(aim: number, slope: GroundSlope | undefined, { rollSlope }: Assumed): Aim['afterwards'] {
  if (slope === undefined || slope.percent <= rollSlope) return [];
  // Half-way between across and down it can do both.
  return [
    ...(rollsFrom(aim, slope) ? (['can roll'] as const) : []),
    ...(Math.abs(turn(aim - slope.aspect)) < 60 ? (['can slide'] as const) : []),
  ];
}

/** Whether a stem that lies in this direction lies so far across the slope that it can roll: more than 30° from straight down or up. */
export function rollsFrom(direction: number, { aspect }: GroundSlope): boolean {
  const fromDown = Math.abs(turn(direction - aspect));
  return fromDown > 30 && fromDown < 150;
}
