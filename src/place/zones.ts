/** Which UTM and State Plane zone a place is in: a proposal for a logbook's working system. */
import type { CrsInfo } from './crs.ts';
import { listCrs } from './crs.ts';
import type { LonLat } from './position.ts';

/** A UTM zone: its number, 1 to 60, and hemisphere. "N" and "S" are hemispheres here, not latitude bands. */
export type UtmZone = { readonly zone: number; readonly hemisphere: 'N' | 'S' };

/**
 * The UTM zone of a place, or undefined beyond 80° S and 84° N where UTM ends. A zone's western edge belongs to it.
 * Source of the rule and of the exceptions for Norway and Svalbard: DMA TM 8358.1 (1990), exceptions from memory.
 */
export function utmZone({ lon, lat }: LonLat): UtmZone | undefined {
  if (!(lat >= -80 && lat <= 84 && lon >= -180 && lon <= 180)) return undefined;
  const hemisphere = lat < 0 ? 'S' : 'N';
  return { zone: exceptionalZone(lon, lat) ?? (Math.floor((lon + 180) / 6) % 60) + 1, hemisphere };
}

function exceptionalZone(lon: number, lat: number): number | undefined {
  if (lat >= 56 && lat < 64 && lon >= 3 && lon < 12) return 32;
  if (lat < 72 || lon < 0 || lon >= 42) return undefined;
  if (lon < 9) return 31;
  if (lon < 21) return 33;
  return lon < 33 ? 35 : 37;
}

/**
 * The shipped UTM systems of a place's zone, and the State Plane zones whose bounds contain it, nearest centre first:
 * bounds are boxes and overlap at state lines, so a person picks.
 */
export function nearestZones(at: LonLat): {
  readonly utm: readonly CrsInfo[];
  readonly statePlane: readonly CrsInfo[];
} {
  const zone = utmZone(at);
  const ending = zone === undefined ? undefined : new RegExp(`zone ${zone.zone}${zone.hemisphere}?$`);
  // Norway's and Svalbard's zones reach up to half a zone beyond their regular edges, which is all the bounds know.
  const margin = exceptionalZone(at.lon, at.lat) === undefined ? 0 : 3;
  return {
    utm: listCrs().filter(
      (system) => system.kind === 'UTM' && ending?.test(system.name) === true && contains(system, at, margin),
    ),
    statePlane: listCrs()
      .filter((system) => system.kind === 'State Plane' && contains(system, at))
      .sort((one, other) => eccentricity(one, at) - eccentricity(other, at)),
  };
}

/** The latitude bands of UTM zones, 8° each from 80° S on; the last one reaches to 84° N (DMA TM 8358.1, from memory). */
const bands = 'CDEFGHJKLMNPQRSTUVWX';

export type ZoneExplained =
  | { readonly ok: true; readonly words: string; readonly codes: readonly string[] }
  | { readonly ok: false; readonly remedy: string };

/**
 * What a zone as it was written may mean: "17S" is zone 17 in the band S (32° to 40° N), or zone 17 of the southern
 * hemisphere. Where a place is known, it says which.
 */
export function explainZone(written: string, near?: LonLat): ZoneExplained {
  const [, number = '', sign = ''] =
    /^\s*(?:zone\s+)?(\d{1,2})\s*(north|south|[a-z])?\s*$/i.exec(written) ?? [];
  const zone = Number(number);
  const letter = sign.slice(0, sign.length > 1 ? undefined : 1).toUpperCase();
  if (number === '' || zone < 1 || zone > 60)
    return { ok: false, remedy: 'write a zone from 1 to 60, with a letter where there is one, such as 17S' };
  const code = (south: boolean) => `EPSG:32${south ? 7 : 6}${String(zone).padStart(2, '0')}`;
  if (letter === '')
    return {
      ok: true,
      words: `Zone ${zone}: ${code(false)} north of the equator, ${code(true)} south of it.`,
      codes: [code(false), code(true)],
    };
  if (letter === 'NORTH' || letter === 'SOUTH')
    return {
      ok: true,
      words: `Zone ${zone} of the ${sign.toLowerCase()}ern hemisphere.`,
      codes: [code(letter === 'SOUTH')],
    };
  const band = bands.indexOf(letter);
  if (band < 0)
    return {
      ok: false,
      remedy: `"${letter}" is no latitude band: they are C to X without I and O; write north or south`,
    };
  const south = band < bands.indexOf('N');
  const bandWords = `zone ${zone} in the latitude band ${letter} (${bandLimits(band)})`;
  if (letter !== 'S' && letter !== 'N')
    return {
      ok: true,
      words: `${capital(bandWords)}, so ${south ? 'south' : 'north'} of the equator.`,
      codes: [code(south)],
    };
  return letterOfTwo(letter, bandWords, zone, code, near);
}

/** S and N are bands and hemispheres. */
function letterOfTwo(
  letter: 'S' | 'N',
  bandWords: string,
  zone: number,
  code: (south: boolean) => string,
  near: LonLat | undefined,
): ZoneExplained {
  const hemisphere = letter === 'S' ? 'southern' : 'northern';
  const both = `${zone}${letter} is either ${bandWords}, or zone ${zone} of the ${hemisphere} hemisphere`;
  if (letter === 'N')
    return { ok: true, words: `${both}; both are north of the equator.`, codes: [code(false)] };
  if (near === undefined)
    return {
      ok: true,
      words: `${both}. North of the equator it is ${code(false)}, south of it ${code(true)}.`,
      codes: [code(false), code(true)],
    };
  const south = near.lat < 0;
  return {
    ok: true,
    words: `${both}. The place lies ${south ? 'south' : 'north'} of the equator, so it is ${code(south)}.`,
    codes: [code(south)],
  };
}

function bandLimits(band: number): string {
  const from = -80 + 8 * band;
  const to = band === bands.length - 1 ? 84 : from + 8;
  const side = from < 0 ? 'S' : 'N';
  const [low, high] = [Math.abs(from), Math.abs(to)].sort((one, other) => one - other);
  return `${low}° to ${high}° ${side}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The zones proposed for a piece of ground, and what is to be said of them. */
export type ZonesProposed = {
  readonly utm: readonly CrsInfo[];
  readonly statePlane: readonly CrsInfo[];
  readonly remarks: readonly string[];
};

/** Nearer than this to the edge of a UTM zone the neighbour is named too, degrees: some 8 km at 45° of latitude. */
const EDGE = 0.1;

/**
 * UTM and State Plane zones for a boundary or a single place, the likeliest first. One zone serves for a whole block, also
 * where the edge of a zone runs through it: it can be used somewhat beyond its edge.
 */
export function proposeZones(places: readonly LonLat[]): ZonesProposed {
  const [first] = places;
  if (first === undefined) return { utm: [], statePlane: [], remarks: ['There is no place to look at.'] };
  const middle = middleOf(places, first);
  const { utm, statePlane } = nearestZones(middle);
  const zone = utmZone(middle);
  if (zone === undefined)
    return { utm, statePlane, remarks: ['UTM ends at 84° N and 80° S; use a polar system.'] };
  const zones = [...new Set(places.flatMap((at) => utmZone(at)?.zone ?? []))].sort((a, b) => a - b);
  const besides = [middle.lon - EDGE, middle.lon + EDGE]
    .map(
      (lon) => utmZone({ lat: middle.lat, lon: lon > 180 ? lon - 360 : lon < -180 ? lon + 360 : lon })?.zone,
    )
    .find((other) => other !== undefined && other !== zone.zone);
  const remarks: string[] = [];
  if (zones.length > 1)
    remarks.push(
      `The edge between UTM zones ${zones.join(' and ')} runs through it: use one of them, zone ${zone.zone}, for everything.`,
    );
  else if (besides !== undefined)
    remarks.push(`It lies close to UTM zone ${besides}: coordinates from elsewhere may be in that one.`);
  if (exceptionalZone(middle.lon, middle.lat) !== undefined)
    remarks.push(`Western Norway and Svalbard have zones of their own widths; here it is zone ${zone.zone}.`);
  if (statePlane.length > 1)
    remarks.push(
      'Bounds of State Plane zones are boxes and overlap at state and county lines: pick by the county.',
    );
  return { utm, statePlane, remarks };
}

/** The middle of the box round several places; differences from the first, so that the antimeridian does no harm. */
function middleOf(places: readonly LonLat[], first: LonLat): LonLat {
  const lons = places.map(({ lon }) => ((lon - first.lon + 540) % 360) - 180);
  const lats = places.map(({ lat }) => lat);
  const lon = first.lon + (Math.min(...lons) + Math.max(...lons)) / 2;
  return {
    lon: ((lon + 540) % 360) - 180,
    lat: (Math.min(...lats) + Math.max(...lats)) / 2,
  };
}

/** True when a place lies in the bounds of a system, widened by `margin` degrees. */
export function contains({ bounds }: CrsInfo, { lon, lat }: LonLat, margin = 0): boolean {
  if (!(lat >= bounds.south - margin && lat <= bounds.north + margin)) return false;
  const west = bounds.west - margin;
  const east = bounds.east + margin;
  return bounds.west <= bounds.east ? lon >= west && lon <= east : lon >= west || lon <= east;
}

/** How far from the middle of its bounds a place lies: 0 in the middle, 1 at an edge. */
function eccentricity({ bounds }: CrsInfo, { lon, lat }: LonLat): number {
  const width = (bounds.east - bounds.west + 360) % 360 || 360;
  const fromWest = (lon - bounds.west + 360) % 360;
  const middle = (bounds.north + bounds.south) / 2;
  return Math.max(
    Math.abs(fromWest / width - 0.5) * 2,
    (Math.abs(lat - middle) * 2) / (bounds.north - bounds.south),
  );
}
