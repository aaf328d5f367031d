/** International ¼-inch as a formula: taper and kerf by 4-ft sections, counted from the small end. */
import type { NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, volume } from './volume.ts';

/** What turns the ⅛-inch rule into the ¼-inch rule: the round figure of the dictionary, or that of two statutes. */
export type QuarterInchFactor = '0.905' | '0.904762';

const SOURCES: Readonly<Record<QuarterInchFactor, string>> = {
  '0.905':
    'Clark 1906 by Larsen, University of Missouri; factor 0.905: Dictionary of Forestry, Society of American Foresters',
  '0.904762':
    'Clark 1906 by Larsen, University of Missouri; factor 0.904762: Michigan Compiled Laws 290.401, ' +
    'Massachusetts General Laws c. 96 s. 11A',
};

/** Longest length for which whole-log forms of the rule were seen; longer logs are scaled in segments. */
const LONGEST = 20;

/**
 * Board feet by the ⅛-inch rule: `0.22 d² − 0.71 d` for each 4-ft section, d growing by ½ in from one section to the
 * next; what is left over counts by its length.
 */
function eighthInch(diameter: number, length: number): number {
  let sum = 0;
  for (let done = 0; done < length; done += 4) {
    const d = diameter + done / 8;
    sum += (0.22 * d ** 2 - 0.71 * d) * Math.min(1, (length - done) / 4);
  }
  return sum;
}

/**
 * Board feet of a log by the International ¼-inch formula. Unrounded; rounded to 5 bf it gives 112 of the 114 cells
 * of the published table (6 to 24 in). 0 where the formula falls below 0 (logs under about 3 in).
 *
 * @param diameter scaling diameter at the small end inside bark, in
 * @param length scaling length, ft, at most 20: longer logs are scaled in segments
 * @param factor from ⅛-inch to ¼-inch kerf
 */
export function internationalFormula(
  diameter: number,
  length: number,
  factor: QuarterInchFactor = '0.905',
): Volume<'international-quarter-inch'> | NotEnough {
  const wrong = outOfRange(
    { what: 'small-end diameter', value: diameter, unit: 'in', least: 0 },
    { what: 'log length', value: length, unit: 'ft', least: 0, most: LONGEST },
  );
  return (
    wrong ??
    volume('international-quarter-inch', Number(factor) * eighthInch(diameter, length), {
      method: `International ¼-inch formula, 4-ft sections, factor ${factor}`,
      source: SOURCES[factor],
    })
  );
}
