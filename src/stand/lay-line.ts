// Where a felled stem lies: from its stump along the azimuth that was measured after the fall.
import {
  destination,
  isUnresolved,
  type LonLat,
  metres,
  type Resolved,
  toTrueAzimuth,
  type Unresolved,
} from '../place/index.ts';
import type { Stem } from './state.ts';
import type { Locator } from './where.ts';

/** Stump and tip, how the direction is known, and the stump as it was resolved. */
export type LayLine = Readonly<{ points: readonly [LonLat, LonLat]; words: string; stump: Resolved }>;

/** The line, or why there is none: what was only aimed at is no lay, and what is hung up does not lie. */
export function layLine(stem: Stem, locator: Locator): LayLine | Unresolved {
  const { felling } = stem;
  if (stem.status === 'hung-up') return { why: 'It is hung up and does not lie on the ground; keep away.' };
  if (felling?.lay === undefined) return { why: 'Its lay was not measured.' };
  const stump = locator.stem(stem.id);
  if (isUnresolved(stump)) return stump;
  const azimuth = toTrueAzimuth(felling.lay, stump.at, felling.at.at, locator.declination);
  if (isUnresolved(azimuth)) return azimuth;
  const length = lengthOfLay(stem);
  if (isUnresolved(length)) return length;
  return {
    points: [stump.at, destination(stump.at, azimuth.value, length.metres)],
    words: azimuth.words,
    stump,
  };
}

/** As long as the stem was measured to lie, else as its total height. */
export function lengthOfLay({
  felling,
  height,
}: Pick<Stem, 'felling' | 'height'>): { readonly metres: number } | Unresolved {
  if (felling?.layLength !== undefined) return metres(felling.layLength, 'length on the ground');
  if (height !== undefined) return metres(height, 'total height');
  return { why: 'Neither its length on the ground nor its total height was measured.' };
}
