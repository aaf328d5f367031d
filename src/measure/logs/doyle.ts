/** Doyle's rule: the smallest scale of all for small logs, a fair one for large logs. */
import type { NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, volume } from './volume.ts';

const origin = {
  method: 'Doyle, ((D − 4) / 4)² · L',
  source: 'Cassens, Log and Tree Scaling Techniques, FNR-191, Purdue University',
};

/**
 * Board feet of a log by Doyle: `((D − 4) / 4)² · L`, taper not counted. Unrounded; tables round to 1 bf, halves up.
 *
 * @param diameter scaling diameter at the small end inside bark, in. Under 4 in the parabola would rise again: 0
 * @param length scaling length, ft
 */
export function doyle(diameter: number, length: number): Volume<'doyle'> | NotEnough {
  const wrong = outOfRange(
    { what: 'small-end diameter', value: diameter, unit: 'in', least: 0 },
    { what: 'log length', value: length, unit: 'ft', least: 0 },
  );
  return wrong ?? volume('doyle', (Math.max(0, diameter - 4) / 4) ** 2 * length, origin);
}
