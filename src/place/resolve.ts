/** Resolving a position: from what was entered to where it is, how well that is known, and how it came about. */
import { horizontalDistance } from '../measure/index.ts';
import { toTrueAzimuth } from './azimuth.ts';
import { fromDistances, type Spoke } from './distances.ts';
import { PlaceError } from './error.ts';
import { resolveAverage, resolveFix, resolveGrid, WGS84 } from './fix.ts';
import { destination } from './geodesic.ts';
import type { AnchorReference, BlockAxes, PositionEntered, Resolved, Taped, Unresolved } from './position.ts';
import { isUnresolved } from './position.ts';
import { metres, positiveMetres, slopeOf } from './quantity.ts';
import { COMPASS_AND_TAPE, type CompassAndTape, offsetError } from './standard-error.ts';

/** What resolving needs to know of the logbook. */
export type PositionContext = {
  /** Where a stake or stem is. Following chains of offsets, and refusing a loop, is the caller's. */
  anchor(reference: AnchorReference): Resolved | Unresolved;
  /** What a stake or stem is called in words. */
  nameOf(reference: AnchorReference): string;
  /** The axes of a block, if it has any. */
  axes(block: string): BlockAxes | undefined;
  /** ISO instant of the entry, for the magnetic model. */
  readonly when: string;
  /** The logbook's own declination in degrees, east positive; overrides the model. */
  readonly declination?: number;
  /** Datum of the logbook's working system; positions given on another one get its extra error. WGS 84 if left out. */
  readonly datum?: string;
  /** What compass and tape are good for; stated defaults if left out. */
  readonly compassAndTape?: CompassAndTape;
};

type Offset = Extract<PositionEntered, { how: 'offset' }>;
type Distances = Extract<PositionEntered, { how: 'distances' }>;
type Local = Extract<PositionEntered, { how: 'local' }>;

/** Where an entered position is, or one sentence why it cannot be told. Never throws for anything that was entered. */
export function resolvePosition(entered: PositionEntered, context: PositionContext): Resolved | Unresolved {
  const datum = context.datum ?? WGS84;
  try {
    switch (entered.how) {
      case 'fix':
        return resolveFix(entered, datum);
      case 'average':
        return resolveAverage(entered, datum);
      case 'grid':
        return resolveGrid(entered, datum);
      case 'offset':
        return resolveOffset(entered, context);
      case 'distances':
        return resolveDistances(entered, context);
      case 'local':
        return resolveLocal(entered, context);
      case 'unknown':
        return {
          why: 'No position was recorded; add one, as a fix or as azimuth and distance from a stake.',
        };
    }
  } catch (error) {
    if (error instanceof PlaceError) return { why: error.message };
    throw error;
  }
}

function resolveOffset(entered: Offset, context: PositionContext): Resolved | Unresolved {
  const start = context.anchor(entered.from);
  if (isUnresolved(start)) return start;
  const distance = levelDistance(entered);
  if (isUnresolved(distance)) return distance;
  const azimuth = toTrueAzimuth(entered.azimuth, start.at, context.when, context.declination);
  if (isUnresolved(azimuth)) return azimuth;
  return {
    at: destination(start.at, azimuth.value, distance.metres),
    standardError: offsetError(start.standardError, distance.metres, context.compassAndTape),
    ...guideOf(start),
    via: `${azimuth.words}; ${tapedWords(entered, context)}`,
  };
}

function resolveDistances({ taped, side }: Distances, context: PositionContext): Resolved | Unresolved {
  const spokes: Spoke[] = [];
  for (const one of taped) {
    const anchor = context.anchor(one.from);
    if (isUnresolved(anchor)) return anchor;
    const distance = levelDistance(one);
    if (isUnresolved(distance)) return distance;
    spokes.push({ anchor, called: context.nameOf(one.from), metres: distance.metres });
  }
  const found = fromDistances(spokes, side, context.compassAndTape ?? COMPASS_AND_TAPE);
  if (isUnresolved(found)) return found;
  const ways = taped.map((one) => tapedWords(one, context)).join(', ');
  return { ...found, via: `${ways}: ${found.via}` };
}

/** What was taped, brought level, in metres. */
function levelDistance(taped: Pick<Taped, 'distance' | 'slope'>): { readonly metres: number } | Unresolved {
  const along = positiveMetres(taped.distance, 'distance');
  if (isUnresolved(along) || taped.slope === undefined) return along;
  const slope = slopeOf(taped.slope);
  return isUnresolved(slope) ? slope : { metres: horizontalDistance(along.metres, slope) };
}

function tapedWords({ from, distance, slope }: Taped, context: PositionContext): string {
  const onSlope = slope === undefined ? '' : ` on a slope of ${slope.text}`;
  return `${distance.text}${onSlope} from ${context.nameOf(from)}`;
}

function guideOf({ errorIsGuide }: Resolved): { readonly errorIsGuide?: true } {
  return errorIsGuide === true ? { errorIsGuide } : {};
}

function resolveLocal(entered: Local, context: PositionContext): Resolved | Unresolved {
  const axes = context.axes(entered.block);
  if (axes === undefined) {
    return {
      why: `Block ${entered.block} has no axes, so x and y lead nowhere; give the block an origin and the azimuth of its y axis.`,
    };
  }
  const x = metres(entered.x, 'x');
  if (isUnresolved(x)) return x;
  const y = metres(entered.y, 'y');
  if (isUnresolved(y)) return y;
  const turned = (Math.atan2(x.metres, y.metres) * 180) / Math.PI;
  const distance = Math.hypot(x.metres, y.metres);
  const { origin, azimuthDegrees, yAzimuthTrue } = axes;
  const good = { ...(context.compassAndTape ?? COMPASS_AND_TAPE), azimuthDegrees };
  return {
    at: destination(origin.at, yAzimuthTrue + turned, distance),
    standardError: offsetError(origin.standardError, distance, good),
    ...guideOf(origin),
    via: `x ${entered.x.text}, y ${entered.y.text} on the axes of block ${entered.block}`,
  };
}
