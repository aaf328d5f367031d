/** Fixes, averages of fixes, and coordinates: positions that come with an accuracy, or get a guide value for it. */
import { crs, whyNotCrs } from './crs.ts';
import type { LonLat, OneFix, PositionEntered, Quantity, Resolved, Unresolved } from './position.ts';
import { isUnresolved } from './position.ts';
import { unproject } from './projection.ts';
import { decimal, positiveMetres } from './quantity.ts';
import { averageError, datumError, GUIDE_METRES } from './standard-error.ts';
import { contains } from './zones.ts';

type Fix = Extract<PositionEntered, { how: 'fix' }>;
type Grid = Extract<PositionEntered, { how: 'grid' }>;
type Average = Extract<PositionEntered, { how: 'average' }>;

/** The datum of a GNSS receiver, and of a logbook that names no working system. */
export const WGS84 = 'WGS 84';

/** How far outside a system's bounds coordinates may fall before they are taken for a mistake, degrees. Common practice, no source. */
const BOUNDS_MARGIN = 2;

/** @param datum that of the logbook's working system */
export function resolveFix(entered: Fix, datum: string): Resolved | Unresolved {
  const at = placeOf(entered);
  if (isUnresolved(at)) return at;
  const source = entered.source === undefined ? 'GNSS fix' : `fix (${entered.source})`;
  const accuracy = accuracyOf(entered.accuracy);
  return isUnresolved(accuracy) ? accuracy : placed(at, accuracy, source, datumError(WGS84, datum));
}

/** The mean of several fixes, each weighted by its accuracy. */
export function resolveAverage({ fixes }: Average, datum: string): Resolved | Unresolved {
  const places: { at: LonLat; accuracy: Accuracy }[] = [];
  for (const one of fixes) {
    const at = placeOf(one);
    if (isUnresolved(at)) return at;
    const accuracy = accuracyOf(one.accuracy);
    if (isUnresolved(accuracy)) return accuracy;
    // A receiver that claims less than a centimetre is not believed beyond all others.
    places.push({ at, accuracy: { ...accuracy, metres: Math.max(accuracy.metres, 0.01) } });
  }
  const [first] = places;
  if (first === undefined) return { why: 'The average has no fixes; give two or more.' };
  const weights = places.map(({ accuracy }) => 1 / accuracy.metres ** 2);
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  // Differences from the first, so that the antimeridian does not tear them apart.
  const mean = (difference: (at: LonLat) => number) =>
    places.reduce((sum, { at }, index) => sum + difference(at) * (weights[index] ?? 0), 0) / all;
  const lon = first.at.lon + mean((at) => around(at.lon - first.at.lon));
  const lat = first.at.lat + mean((at) => at.lat - first.at.lat);
  const guide = places.some(({ accuracy }) => accuracy.guide);
  const metres = averageError(places.map(({ accuracy }) => accuracy.metres));
  const words = `, ${guide ? 'some without an accuracy, ' : ''}taken as ±${metres.toFixed(1)} m`;
  return placed(
    { lon: around(lon), lat },
    { metres, guide, words },
    `average of ${places.length} fixes`,
    datumError(WGS84, datum),
  );
}

/** @param datum that of the logbook's working system */
export function resolveGrid(entered: Grid, datum: string): Resolved | Unresolved {
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
  const accuracy = accuracyOf(entered.accuracy);
  if (isUnresolved(accuracy)) return accuracy;
  return placed(at, accuracy, `coordinates in ${info.code} (${info.name})`, datumError(info.datum, datum));
}

type Accuracy = { readonly metres: number; readonly guide: boolean; readonly words: string };

function accuracyOf(accuracy: Quantity | undefined): Accuracy | Unresolved {
  if (accuracy === undefined)
    return { metres: GUIDE_METRES, guide: true, words: `, no accuracy given, taken as ±${GUIDE_METRES} m` };
  const size = positiveMetres(accuracy, 'accuracy');
  if (isUnresolved(size)) return size;
  // Some receivers hand out 0 for "not known", and no place is known without any error.
  if (size.metres === 0)
    return {
      metres: GUIDE_METRES,
      guide: true,
      words: `, accuracy ${accuracy.text} says nothing, taken as ±${GUIDE_METRES} m`,
    };
  return { metres: size.metres, guide: false, words: `, accuracy ${accuracy.text}` };
}

function placed(
  at: LonLat,
  { metres, guide, words }: Accuracy,
  source: string,
  extra: ReturnType<typeof datumError>,
): Resolved {
  return {
    at,
    standardError: extra.metres === 0 ? metres : Math.hypot(metres, extra.metres),
    ...(guide ? { errorIsGuide: true } : {}),
    via: `${source}${words}${extra.metres === 0 ? '' : `; ${extra.words}`}`,
  };
}

function placeOf({ lat: latText, lon: lonText }: OneFix): LonLat | Unresolved {
  const lat = decimal(latText);
  const lon = decimal(lonText);
  if (lat === undefined || Math.abs(lat) > 90) {
    return {
      why: `The latitude "${latText}" is not a number from -90 to 90; correct it in decimal degrees.`,
    };
  }
  if (lon === undefined || Math.abs(lon) > 180) {
    return {
      why: `The longitude "${lonText}" is not a number from -180 to 180; correct it in decimal degrees.`,
    };
  }
  return { lon, lat };
}

/** Degrees brought to -180 to 180. */
function around(degrees: number): number {
  return Math.abs(degrees) <= 180 ? degrees : ((((degrees + 180) % 360) + 360) % 360) - 180;
}
