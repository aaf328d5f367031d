/**
 * Magnetic declination by the World Magnetic Model (NOAA NCEI and British Geological Survey), editions 2015 to 2025,
 * at the ellipsoid's surface.
 */
import geomagnetism from 'geomagnetism';
import type { LonLat, Unresolved } from './position.ts';

/** Declination in degrees, east positive; the model it comes from; and the same in words ("7.1° west"). */
export type Declination = { readonly value: number; readonly model: string; readonly words: string };

/**
 * Declination at a place and time. Outside the models' years (end of 2014 to November 2029) there is none, and the
 * reason asks for a value: an extrapolated field is not good enough to lay out a line by.
 *
 * @param when ISO 8601 date or instant
 */
export function declination(at: LonLat, when: string): Declination | Unresolved {
  const date = new Date(when);
  if (Number.isNaN(date.getTime())) {
    return {
      why: `"${when}" is no date, so there is no declination for it; give a date such as 2026-03-04.`,
    };
  }
  try {
    const model = geomagnetism.model(date);
    const value = model.point([at.lat, at.lon]).decl;
    if (!Number.isFinite(value)) {
      return {
        why: `There is no declination at latitude ${at.lat}, longitude ${at.lon}; correct the position.`,
      };
    }
    return { value, model: model.name, words: inWords(value) };
  } catch {
    return {
      why: `The magnetic models shipped here do not cover ${when.slice(0, 10)}; give the logbook a declination for that time, or give the azimuth from true north.`,
    };
  }
}

/** "14.0° west", "0.2° east", "0.0°". */
export function inWords(value: number): string {
  const size = Math.abs(value).toFixed(1);
  if (size === '0.0') return '0.0°';
  return `${size}° ${value < 0 ? 'west' : 'east'}`;
}
