/** Board feet of a standing tree from its DBH, its merchantable height in 16-ft logs and its form class. */
import type { NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, volume } from '../logs/volume.ts';

/** Rules for which the tables of standing trees were fitted. */
export type StandingRule = 'doyle' | 'scribner' | 'international-quarter-inch';

/** Constant, linear and square term in L; of the three coefficients of `a + b D + c D²`. */
type Terms = readonly [number, number, number];
type Coefficients = Readonly<{ a: Terms; b: Terms; c: Terms }>;

const WIANT: Readonly<Record<StandingRule, Coefficients>> = {
  'international-quarter-inch': {
    a: [-13.35212, 9.58615, 1.52968],
    b: [1.7962, -2.59995, -0.27465],
    c: [0.04482, 0.45997, -0.00961],
  },
  scribner: {
    a: [-22.50365, 17.53508, -0.59242],
    b: [3.02988, -4.34381, -0.02302],
    c: [-0.01969, 0.51593, -0.02035],
  },
  doyle: {
    a: [-29.37337, 41.51275, 0.55743],
    b: [2.78043, -8.77272, -0.04516],
    c: [0.04177, 0.59042, -0.01578],
  },
};

const SOURCE =
  'Wiant 1986, Northern Journal of Applied Forestry 3:124, for the tables of Mesavage & Girard 1946; ' +
  'larsendr.github.io/mesavage.html';

/** DBH in inches, number of 16-ft logs to the merchantable top, Girard form class in percent. */
export type StandingTree = Readonly<{ dbh: number; logs: number; formClass: number }>;

/**
 * Board feet of a standing tree: `(a + b D + c D²) · (1 + 0.03 (FC − 78))`, a, b and c being parabolas of the number
 * of logs. Unrounded, gross: defects are not counted.
 *
 * The formulas were fitted to tables for DBH 10 to 40 in, 1 to 6 logs and form classes 65 to 90 (range from memory);
 * outside it there is no figure. A tree of any size that was looked at and has no log in it, 0 logs, has 0 board feet:
 * that is known, while a height that nobody took is not.
 */
export function standingBoardFeet<Rule extends StandingRule>(
  { dbh, logs, formClass }: StandingTree,
  rule: Rule,
): Volume<Rule> | NotEnough {
  const origin = { method: `standing tree by form class ${formClass}`, source: SOURCE };
  if (logs === 0) return volume(rule, 0, origin);
  const wrong = outOfRange(
    { what: 'DBH', value: dbh, unit: 'in', least: 10, most: 40 },
    { what: 'merchantable height', value: logs, unit: 'logs of 16 ft', least: 1, most: 6 },
    { what: 'form class', value: formClass, unit: '%', least: 65, most: 90 },
  );
  if (wrong !== undefined) return wrong;
  const { a, b, c } = WIANT[rule];
  const parabola = ([constant, linear, square]: Terms) => constant + linear * logs + square * logs ** 2;
  const value = parabola(a) + parabola(b) * dbh + parabola(c) * dbh ** 2;
  return volume(rule, value * (1 + 0.03 * (formClass - 78)), origin);
}
