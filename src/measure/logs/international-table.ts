/** International ¼-inch as it is printed. Two cells differ from the formula: 15 in × 16 ft and 17 in × 14 ft. */
import type { NotEnough } from '../figure.ts';
import { isNotEnough } from '../figure.ts';
import { type LogTable, lookUp } from './table.ts';
import { type Volume, volume } from './volume.ts';

const origin = {
  method: 'International ¼-inch, published table',
  source: 'Wengert, Log Volume, 2001 (published table)',
};

const table: LogTable = {
  name: 'International ¼-inch',
  lengths: [6, 8, 10, 12, 14, 16],
  rows: {
    6: [5, 10, 10, 15, 15, 20],
    7: [10, 10, 15, 20, 25, 30],
    8: [10, 15, 20, 25, 35, 40],
    9: [15, 20, 30, 35, 45, 50],
    10: [20, 30, 35, 45, 55, 65],
    11: [25, 35, 45, 55, 70, 80],
    12: [30, 45, 55, 70, 85, 95],
    13: [40, 55, 70, 85, 100, 115],
    14: [45, 65, 80, 100, 115, 135],
    15: [55, 75, 95, 115, 135, 160],
    16: [60, 85, 110, 130, 155, 180],
    17: [70, 95, 125, 150, 180, 205],
    18: [80, 110, 140, 170, 200, 230],
    19: [90, 125, 155, 190, 225, 260],
    20: [100, 135, 175, 210, 250, 290],
    21: [115, 155, 195, 235, 280, 320],
    22: [125, 170, 215, 260, 305, 355],
    23: [140, 185, 235, 285, 335, 390],
    24: [150, 205, 255, 310, 370, 425],
  },
};

/**
 * Board feet of a log from the printed International ¼-inch table, rounded there to 5 bf.
 *
 * @param diameter scaling diameter at the small end inside bark, whole inches 6 to 24
 * @param length scaling length, even feet 6 to 16
 */
export function internationalTable(
  diameter: number,
  length: number,
): Volume<'international-quarter-inch'> | NotEnough {
  const found = lookUp(table, diameter, length);
  return isNotEnough(found) ? found : volume('international-quarter-inch', found, origin);
}
