/** Reading quantities as entered: decimal strings to numbers, lengths to metres, slopes. */
import { isLengthUnit, LENGTH_UNITS, lengthIn, type Slope } from '../measure/index.ts';
import type { Quantity, Unresolved } from './position.ts';
import { isUnresolved } from './position.ts';

const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/;

/** The number a decimal string stands for, or undefined when it is none: "1e3", "12,5", "" and "NaN" are none. */
export function decimal(text: string): number | undefined {
  if (!DECIMAL.test(text)) return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}

/** A length in metres. `field` names it in the sentence that says why not. */
export function metres(quantity: Quantity, field: string): { readonly metres: number } | Unresolved {
  const value = decimal(quantity.value);
  if (value === undefined) {
    return { why: `The ${field} "${quantity.text}" is no number; correct it as in "42.5 ft".` };
  }
  if (!isLengthUnit(quantity.unit)) {
    return {
      why: `The ${field} "${quantity.text}" has the unit "${quantity.unit}", which is no length; use one of ${LENGTH_UNITS.join(', ')}.`,
    };
  }
  return { metres: lengthIn(value, quantity.unit, 'm') };
}

/** A length in metres that must not be negative. */
export function positiveMetres(quantity: Quantity, field: string): { readonly metres: number } | Unresolved {
  const length = metres(quantity, field);
  if (!isUnresolved(length) && length.metres < 0) {
    return { why: `The ${field} "${quantity.text}" is negative; give it as a positive length.` };
  }
  return length;
}

/** Reads a slope as entered. */
export function slopeOf(quantity: Quantity): Slope | Unresolved {
  const value = decimal(quantity.value);
  if (value === undefined) {
    return { why: `The slope "${quantity.text}" is no number; correct it as in "35 %" or "19 deg".` };
  }
  if (quantity.unit !== '%' && quantity.unit !== 'deg') {
    return { why: `The slope "${quantity.text}" has the unit "${quantity.unit}"; use % or deg.` };
  }
  if (quantity.unit === 'deg' && Math.abs(value) >= 90) {
    return { why: `A slope of "${quantity.text}" is vertical or beyond; give an angle below 90 deg.` };
  }
  return { value, unit: quantity.unit };
}
