/**
 * Magnetic declination by the World Magnetic Model (NOAA NCEI and British Geological Survey), editions 2015 to 2025,
 * at the ellipsoid's surface.
 */
import coefficients2015 from 'geomagnetism/data/wmm-2015v2.json' with { type: 'json' };
import coefficients2020 from 'geomagnetism/data/wmm-2020.json' with { type: 'json' };
import coefficients2025 from 'geomagnetism/data/wmm-2025.json' with { type: 'json' };
import Model from 'geomagnetism/lib/model.js';
import type { LonLat, Unresolved } from './position.ts';

/** Declination in degrees, east positive; the model it comes from; and the same in words ("7.1° west"). */
export type Declination = { readonly value: number; readonly model: string; readonly words: string };

/** Years that an edition is valid for, from its epoch on. */
const LIFE = 5;

/**
 * Each edition holds from its epoch for five years (WMM2025: 2025.0 to 2030.0). The package would end each by its day of
 * publication, weeks before that. Of the first there is the out-of-cycle update, which was made for all of 2015 to 2020.
 */
const editions = [coefficients2025, coefficients2020, coefficients2015].map((coefficients) => {
  const [from, to] = [Date.UTC(coefficients.epoch), Date.UTC(coefficients.epoch + LIFE)];
  const dates = { start_date: new Date(from).toISOString(), end_date: new Date(to).toISOString() };
  return { name: coefficients.name, from, to, model: new Model({ ...coefficients, ...dates }) };
});

/**
 * Declination at a place and time. Outside the models' years (2015.0 to 2030.0) there is none, and the reason asks for a
 * value: an extrapolated field is not good enough to lay out a line by.
 *
 * @param when ISO 8601 date or instant
 */
export function declination(at: LonLat, when: string): Declination | Unresolved {
  return declinationAbove(at, 0, when);
}

/** {@link declination} at a height above the ellipsoid: published values are for heights too. @param kilometres height */
export function declinationAbove(at: LonLat, kilometres: number, when: string): Declination | Unresolved {
  const date = new Date(when);
  const instant = date.getTime();
  if (Number.isNaN(instant)) {
    return {
      why: `"${when}" is no date, so there is no declination for it; give a date such as 2026-03-04.`,
    };
  }
  const edition = editions.find(({ from, to }) => instant >= from && instant <= to);
  if (edition === undefined) {
    return {
      why: `The magnetic models shipped here hold from 2015.0 to 2030.0 and do not cover ${when.slice(0, 10)}; give the logbook a declination for that time, or give the azimuth from true north.`,
    };
  }
  const value = edition.model.getTimedModel(date).point([at.lat, at.lon, kilometres]).decl;
  if (!Number.isFinite(value)) {
    return {
      why: `There is no declination at latitude ${at.lat}, longitude ${at.lon}; correct the position.`,
    };
  }
  return { value, model: edition.name, words: inWords(value) };
}

/** "14.0° west", "0.2° east", "0.0°". */
export function inWords(value: number): string {
  const size = Math.abs(value).toFixed(1);
  if (size === '0.0') return '0.0°';
  return `${size}° ${value < 0 ? 'west' : 'east'}`;
}
