/** Measuring trees and land: units and mensuration. Pure functions, each with its source; knows no other room. */
export { basalArea } from './basal-area.ts';
export type { Figure, NotEnough } from './figure.ts';
export { isNotEnough, notEnough } from './figure.ts';
export type { AreaUnit, LengthUnit } from './units.ts';
export { AREA_UNITS, areaIn, isAreaUnit, isLengthUnit, LENGTH_UNITS, lengthIn } from './units.ts';
