// How far a stem lies off an aim: two azimuths, each from its own north and its own day, brought to one.
import type { AzimuthEntered } from '../events/index.ts';
import { isUnresolved, type LonLat, toTrueAzimuth } from '../place/index.ts';
import { type Locator, locate, type Stand } from '../stand/index.ts';
import { turn } from './model/fall.ts';

/** An azimuth with the moment (RFC 3339) of the magnetic north that it was read by. */
export type Read = Readonly<{ azimuth: AzimuthEntered; when: string }>;

/**
 * Degrees from −180 to 180 from an aim to a lay, to the right of it positive. Read from the same north on the same day they
 * are compared as they stand; otherwise both are brought to true north, for which a place must be known. Undefined when
 * it is not.
 */
export function offBetween(stand: Stand, stem: string, aimed: Read, lay: Read): number | undefined {
  if (isSameNorth(aimed, lay)) return turn(Number(lay.azimuth.value) - Number(aimed.azimuth.value));
  const locator = locate(stand);
  const at = placeNear(stand, stem, locator);
  const [one, other] = [aimed, lay].map((read) => trueOf(read, at, locator));
  return one === undefined || other === undefined ? undefined : turn(other - one);
}

function isSameNorth({ azimuth: one, when }: Read, { azimuth: other, when: then }: Read): boolean {
  if (one.reference !== other.reference || one.crs !== other.crs) return false;
  return one.reference !== 'mag' || when === then;
}

/** Degrees clockwise from true north; undefined where no place tells which way that is. */
export function trueOf(
  { azimuth, when }: Read,
  at: LonLat | undefined,
  { declination }: Locator,
): number | undefined {
  if (azimuth.reference === 'true') return Number(azimuth.value);
  if (at === undefined) return undefined;
  const found = toTrueAzimuth(azimuth, at, when, declination);
  return isUnresolved(found) ? undefined : found.value;
}

/** The stem's own place, or that of any stake: declination is the same all over a woodlot. */
export function placeNear(stand: Stand, stem: string, locator: Locator): LonLat | undefined {
  for (const found of [locator.stem(stem), ...[...stand.stakes.keys()].map(locator.stake)])
    if (!isUnresolved(found)) return found.at;
  return undefined;
}
