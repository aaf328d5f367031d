/** Scribner's rule as a formula. The published Decimal C table differs from it and lives in a file of its own. */
import type { NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, volume } from './volume.ts';

const origin = {
  method: 'Scribner formula, (0.79 D² − 2 D − 4) · L / 16',
  source: 'Larsen, University of Missouri, teaching page on log volume',
};

/**
 * Board feet of a log by the formula that approximates Scribner's diagrams: `(0.79 D² − 2 D − 4) · L / 16`.
 * Unrounded; 0 where the formula falls below 0 (D under 3.85 in).
 *
 * @param diameter scaling diameter at the small end inside bark, in
 * @param length scaling length, ft
 */
export function scribnerFormula(diameter: number, length: number): Volume<'scribner'> | NotEnough {
  const wrong = outOfRange(
    { what: 'small-end diameter', value: diameter, unit: 'in', least: 0 },
    { what: 'log length', value: length, unit: 'ft', least: 0 },
  );
  if (wrong !== undefined) return wrong;
  // The parabola is lowest at D = 1.3 in and below 0 up to 3.85 in; volume() takes that for nothing.
  return volume('scribner', ((0.79 * diameter ** 2 - 2 * diameter - 4) * length) / 16, origin);
}
