/**
 * A place as it is read out over a telephone or a radio: decimal degrees, degrees and decimal minutes, UTM.
 *
 * Hemispheres are letters, for a minus sign gets lost in speech, and zeros that say nothing are left out. Degrees with
 * minutes to three places are what air rescue asks for, so written, in the United States: National SAR Committee,
 * Georeferencing Matrix, 13 November 2007 (seen second-hand). All are WGS 84.
 */
import { PlaceError } from './error.ts';
import type { LonLat } from './position.ts';
import { project } from './projection.ts';
import { utmZone } from './zones.ts';

/** Hundred-thousandths of a degree: about 1.1 m of latitude. */
const perDegree = 100_000;
/** Thousandths of a minute: about 1.9 m of latitude. */
const perMinute = 1000;

/**
 * Decimal degrees to five places, such as `44.12346° N, 71.65432° W`.
 * @throws PlaceError for a latitude beyond 90 or a longitude beyond 180 degrees
 */
export function decimalDegrees(at: LonLat): string {
  return pair(at, (value) => {
    const parts = Math.round(value * perDegree);
    return { text: `${fixed(parts, perDegree)}°`, isZero: parts === 0 };
  });
}

/**
 * Degrees and decimal minutes to three places, such as `44° 7.407' N, 71° 39.259' W`. What rounds to sixty minutes is
 * the next degree.
 * @throws PlaceError as {@link decimalDegrees} does
 */
export function degreesMinutes(at: LonLat): string {
  return pair(at, (value) => {
    const parts = Math.round(value * 60 * perMinute);
    const degrees = Math.floor(parts / (60 * perMinute));
    return { text: `${degrees}° ${fixed(parts % (60 * perMinute), perMinute)}'`, isZero: parts === 0 };
  });
}

/**
 * UTM on WGS 84 to the metre, such as `zone 18 north, 767685 m E, 4891029 m N`; undefined where UTM ends, beyond 84° N
 * and 80° S. The hemisphere is a word: as a letter it would read like a latitude band.
 * @throws PlaceError as {@link decimalDegrees} does
 */
export function utmText(at: LonLat): string | undefined {
  checked(at);
  const found = utmZone(at);
  if (found === undefined) return undefined;
  const { zone, hemisphere } = found;
  const code = `EPSG:32${hemisphere === 'N' ? 6 : 7}${String(zone).padStart(2, '0')}`;
  const { x, y } = project(code, at);
  const half = hemisphere === 'N' ? 'north' : 'south';
  return `zone ${zone} ${half}, ${Math.round(x)} m E, ${Math.round(y)} m N`;
}

type Written = { text: string; isZero: boolean };

/** Latitude, then longitude; what rounds to zero is north or east, whatever its sign. */
function pair(at: LonLat, write: (value: number) => Written): string {
  const { lat, lon } = checked(at);
  return [
    { value: lat, letters: ['N', 'S'] },
    { value: lon, letters: ['E', 'W'] },
  ]
    .map(({ value, letters }) => {
      const { text, isZero } = write(Math.abs(value));
      return `${text} ${letters[value < 0 && !isZero ? 1 : 0]}`;
    })
    .join(', ');
}

/** A whole number of parts as a decimal number with all its places. */
function fixed(parts: number, perOne: number): string {
  const places = String(perOne).length - 1;
  return `${Math.floor(parts / perOne)}.${String(parts % perOne).padStart(places, '0')}`;
}

function checked(at: LonLat): LonLat {
  const { lat, lon } = at;
  if (Math.abs(lat) <= 90 && Math.abs(lon) <= 180) return at;
  throw new PlaceError(
    'position',
    `${lat}, ${lon}`,
    `Latitude ${lat}, longitude ${lon} is no place on earth.`,
    'Give a latitude from -90 to 90 and a longitude from -180 to 180.',
  );
}
