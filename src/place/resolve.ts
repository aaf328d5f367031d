/** Resolving a position: from what was entered to where it is, how well that is known, and how it came about. */
import { horizontalDistance } from '../measure/index.ts';
import { toTrueAzimuth } from './azimuth.ts';
import { crs, whyNotCrs } from './crs.ts';
import { PlaceError } from './error.ts';
import { destination } from './geodesic.ts';
import type {
  AnchorReference,
  BlockAxes,
  LonLat,
  PositionEntered,
  Quantity,
  Resolved,
  Unresolved,
} from './position.ts';
import { isUnresolved } from './position.ts';
import { unproject } from './projection.ts';
import { decimal, metres, positiveMetres, slopeOf } from './quantity.ts';
import { offsetError } from './standard-error.ts';
import { contains } from './zones.ts';

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
};

type Offset = Extract<PositionEntered, { how: 'offset' }>;
type Grid = Extract<PositionEntered, { how: 'grid' }>;
type Fix = Extract<PositionEntered, { how: 'fix' }>;
type Local = Extract<PositionEntered, { how: 'local' }>;

/** How far outside a system's bounds coordinates may fall before they are taken for a mistake, degrees. Common practice, no source. */
const BOUNDS_MARGIN = 2;

/** Where an entered position is, or one sentence why it cannot be told. Never throws for anything that was entered. */
export function resolvePosition(entered: PositionEntered, context: PositionContext): Resolved | Unresolved {
  try {
    switch (entered.how) {
      case 'fix':
        return resolveFix(entered);
      case 'grid':
        return resolveGrid(entered);
      case 'offset':
        return resolveOffset(entered, context);
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

function resolveFix(entered: Fix): Resolved | Unresolved {
  const lat = decimal(entered.lat);
  const lon = decimal(entered.lon);
  if (lat === undefined || Math.abs(lat) > 90) {
    return {
      why: `The latitude "${entered.lat}" is not a number from -90 to 90; correct it in decimal degrees.`,
    };
  }
  if (lon === undefined || Math.abs(lon) > 180) {
    return {
      why: `The longitude "${entered.lon}" is not a number from -180 to 180; correct it in decimal degrees.`,
    };
  }
  const source = entered.source === undefined ? 'GNSS fix' : `fix (${entered.source})`;
  return withAccuracy({ lon, lat }, entered.accuracy, source);
}

function resolveGrid(entered: Grid): Resolved | Unresolved {
  const info = crs(entered.crs);
  if (info === undefined) return { why: whyNotCrs(entered.crs) };
  const x = decimal(entered.easting);
  const y = decimal(entered.northing);
  if (x === undefined)
    return { why: `The easting "${entered.easting}" is no number; correct it in ${info.unit}.` };
  if (y === undefined)
    return { why: `The northing "${entered.northing}" is no number; correct it in ${info.unit}.` };
  const at = unproject(info.code, { x, y });
  if (!contains(info, at, BOUNDS_MARGIN)) {
    return {
      why: `Easting ${entered.easting}, northing ${entered.northing} in ${info.code} (${info.name}) fall at latitude ${at.lat.toFixed(4)}, longitude ${at.lon.toFixed(4)}, far outside where that system is used; check the order (easting first), the unit (${info.unit}) and the zone.`,
    };
  }
  return withAccuracy(at, entered.accuracy, `coordinates in ${info.code} (${info.name})`);
}

function withAccuracy(at: LonLat, accuracy: Quantity | undefined, via: string): Resolved | Unresolved {
  if (accuracy === undefined) return { at, via };
  const size = positiveMetres(accuracy, 'accuracy');
  if (isUnresolved(size)) return size;
  return { at, standardError: size.metres, via: `${via}, accuracy ${accuracy.text}` };
}

function resolveOffset(entered: Offset, context: PositionContext): Resolved | Unresolved {
  const start = context.anchor(entered.from);
  if (isUnresolved(start)) return start;
  const taped = positiveMetres(entered.distance, 'distance');
  if (isUnresolved(taped)) return taped;
  const slope = entered.slope === undefined ? undefined : slopeOf(entered.slope);
  if (slope !== undefined && isUnresolved(slope)) return slope;
  const azimuth = toTrueAzimuth(entered.azimuth, start.at, context.when, context.declination);
  if (isUnresolved(azimuth)) return azimuth;
  const distance = slope === undefined ? taped.metres : horizontalDistance(taped.metres, slope);
  const onSlope = entered.slope === undefined ? '' : ` on a slope of ${entered.slope.text}`;
  const anchor = context.nameOf(entered.from);
  return resolved(
    destination(start.at, azimuth.value, distance),
    offsetError(start.standardError, distance),
    `${azimuth.words}; ${entered.distance.text}${onSlope} from ${anchor}`,
  );
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
  return {
    at: destination(axes.origin, axes.yAzimuthTrue + turned, Math.hypot(x.metres, y.metres)),
    via: `x ${entered.x.text}, y ${entered.y.text} on the axes of block ${entered.block}`,
  };
}

function resolved(at: LonLat, standardError: number | undefined, via: string): Resolved {
  return standardError === undefined ? { at, via } : { at, standardError, via };
}
