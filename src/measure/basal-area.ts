import type { AreaUnit, LengthUnit } from './units.ts';
import { areaIn, lengthIn } from './units.ts';

/**
 * Basal area of a stem: the area of the circle whose diameter is the DBH.
 *
 * With DBH in inches and the result in square feet this is π/576 · d², which the trade rounds to 0.005454 · d²;
 * with DBH in centimetres and the result in square metres it is π/40000 · d². Source: definition (area of a circle).
 *
 * @param dbh diameter at breast height, zero or more
 * @param from unit of `dbh`, inches by default
 * @param to unit of the result, square feet by default
 */
export function basalArea(dbh: number, from: LengthUnit = 'in', to: AreaUnit = 'ft2'): number {
  if (to === 'ft2' || to === 'ac') {
    return areaIn((Math.PI / 4) * lengthIn(dbh, from, 'ft') ** 2, 'ft2', to);
  }
  return areaIn((Math.PI / 4) * lengthIn(dbh, from, 'm') ** 2, 'm2', to);
}
