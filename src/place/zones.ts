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
