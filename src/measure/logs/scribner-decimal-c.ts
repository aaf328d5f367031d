/**
 * Scribner Decimal C: the printed table, by tens of board feet (its "14" is 140 bf). No formula gives it: the usual
 * one misses 29 of its first 84 cells.
 */
import type { NotEnough } from '../figure.ts';
import { isNotEnough } from '../figure.ts';
import { type LogTable, lookUp } from './table.ts';
import { type Volume, volume } from './volume.ts';

const origin = {
  method: 'Scribner Decimal C, published table',
  source: 'Wengert, Log Volume, 2001 (published table)',
};

/** The copy of the table that was seen ends at 20 in; larger logs are not enough data until the rest is seen. */
const table: LogTable = {
  name: 'Scribner Decimal C',
  lengths: [6, 8, 10, 12, 14, 16],
  rows: {
    6: [5, 5, 10, 10, 10, 20],
    7: [5, 10, 10, 20, 20, 30],
    8: [10, 10, 20, 20, 20, 30],
    9: [10, 20, 30, 30, 30, 40],
    10: [20, 30, 30, 30, 40, 60],
    11: [20, 30, 40, 40, 50, 70],
    12: [30, 40, 50, 60, 70, 80],
    13: [40, 50, 60, 70, 80, 100],
    14: [40, 60, 70, 90, 100, 110],
    15: [50, 70, 90, 110, 120, 140],
    16: [60, 80, 100, 120, 140, 160],
    17: [70, 90, 120, 140, 160, 180],
    18: [80, 110, 130, 160, 190, 210],
    19: [90, 120, 150, 180, 210, 240],
    20: [110, 140, 170, 210, 240, 280],
  },
};

/**
 * Board feet of a log from the printed Scribner Decimal C table, in bf (ten times the printed decimal).
 *
 * @param diameter scaling diameter at the small end inside bark, whole inches 6 to 20
 * @param length scaling length, even feet 6 to 16
 */
export function scribnerDecimalC(diameter: number, length: number): Volume<'scribner-decimal-c'> | NotEnough {
  const found = lookUp(table, diameter, length);
  return isNotEnough(found) ? found : volume('scribner-decimal-c', found, origin);
}
