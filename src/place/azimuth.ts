/** Azimuths from magnetic, true or grid north, brought to true north. */
import { crs, whyNotCrs } from './crs.ts';
import { declination as declinationByModel, inWords } from './declination.ts';
import { PlaceError } from './error.ts';
import { wrapped } from './geodesic.ts';
import type { Azimuth, LonLat, Unresolved } from './position.ts';
import { isUnresolved } from './position.ts';
import { gridConvergence } from './projection.ts';
import { decimal } from './quantity.ts';

/** Degrees clockwise from true north, 0 to below 360, and how they came about. */
export type TrueAzimuth = { readonly ok: true; readonly value: number; readonly words: string };

/**
 * The true azimuth: magnetic plus declination, or grid plus convergence (both east positive).
 *
 * @param at where the azimuth was read
 * @param when ISO instant, for the magnetic model
 * @param declination the logbook's own value in degrees, east positive; overrides the model
 */
export function toTrueAzimuth(
  azimuth: Azimuth,
  at: LonLat,
  when: string,
  declination?: number,
): TrueAzimuth | Unresolved {
  const value = decimal(azimuth.value);
  if (value === undefined || value < 0 || value > 360) {
    return { why: `The azimuth "${azimuth.text}" is not from 0 to 360 degrees; correct it.` };
  }
  switch (azimuth.reference) {
    case 'true':
      return { ok: true, value: wrapped(value), words: `true azimuth ${value}°` };
    case 'mag':
      return fromMagnetic(value, at, when, declination);
    case 'grid':
      return fromGrid(value, azimuth, at);
  }
}

function fromMagnetic(
  value: number,
  at: LonLat,
  when: string,
  given: number | undefined,
): TrueAzimuth | Unresolved {
  if (given !== undefined) {
    if (!(Math.abs(given) <= 180)) {
      return { why: `The logbook's declination ${given} is not from -180 to 180 degrees; correct it.` };
    }
    const words = `magnetic azimuth ${value}°, declination ${inWords(given)} as the logbook gives it`;
    return { ok: true, value: wrapped(value + given), words };
  }
  const found = declinationByModel(at, when);
  if (isUnresolved(found)) return found;
  const words = `magnetic azimuth ${value}°, declination ${found.words} on ${when.slice(0, 10)} (${found.model})`;
  return { ok: true, value: wrapped(value + found.value), words };
}

function fromGrid(value: number, azimuth: Azimuth, at: LonLat): TrueAzimuth | Unresolved {
  if (azimuth.crs === undefined) {
    return { why: `The azimuth "${azimuth.text}" is from grid north but names no grid; add its EPSG code.` };
  }
  const info = crs(azimuth.crs);
  if (info === undefined) return { why: whyNotCrs(azimuth.crs) };
  if (!info.conformal) {
    return {
      why: `${info.code} (${info.name}) does not keep angles, so "${azimuth.text}" from its north has no fixed direction; give the azimuth from true north or from a UTM or State Plane grid.`,
    };
  }
  try {
    const convergence = gridConvergence(azimuth.crs, at);
    const words = `grid azimuth ${value}° in ${info.code}, convergence ${inWords(convergence)}`;
    return { ok: true, value: wrapped(value + convergence), words };
  } catch (error) {
    if (error instanceof PlaceError) return { why: error.message };
    throw error;
  }
}
