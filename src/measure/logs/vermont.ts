/** The rule of the Vermont statute: half the square of the diameter for a 12-ft log. */
import type { NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, volume } from './volume.ts';

/** One section of the rule, ft. */
export const VERMONT_SECTION = 12;

const origin = { method: 'Vermont, D · D / 2 for 12 ft, shorter pro rata', source: '9 V.S.A. § 2693' };

/**
 * Board feet of a log of at most 12 ft by the Vermont statute: `D² / 2 · L / 12`. Unrounded. Longer logs are scaled
 * in 12-ft sections from the top end, each with its own diameter: see `vermontSections`.
 *
 * @param diameter scaling diameter, in, rounded as the statute says: see `vermontDiameter`
 * @param length scaling length, ft, at most 12
 */
export function vermont(diameter: number, length: number): Volume<'vermont'> | NotEnough {
  const wrong = outOfRange(
    { what: 'small-end diameter', value: diameter, unit: 'in', least: 0 },
    { what: 'length of the section', value: length, unit: 'ft', least: 0, most: VERMONT_SECTION },
  );
  return wrong ?? volume('vermont', ((diameter ** 2 / 2) * length) / VERMONT_SECTION, origin);
}
