// Quantities as they were entered, as the formulas take them.
import type { QuantityEntered } from '../../events/index.ts';
import { type AreaUnit, isAreaUnit, isLengthUnit, type LengthUnit, lengthIn } from '../../measure/index.ts';

type Maybe = Readonly<Pick<QuantityEntered, 'value' | 'unit'>> | undefined;

/** A length in its own unit; undefined for none, for a unit that is no length, and for no number. */
export function asLength(quantity: Maybe): Readonly<{ value: number; unit: LengthUnit }> | undefined {
  const value = Number(quantity?.value);
  return quantity !== undefined && isLengthUnit(quantity.unit) && Number.isFinite(value)
    ? { value, unit: quantity.unit }
    : undefined;
}

/** A length above 0 in its own unit. */
export function asPositiveLength(quantity: Maybe): ReturnType<typeof asLength> {
  const length = asLength(quantity);
  return length !== undefined && length.value > 0 ? length : undefined;
}

/** An area in its own unit; undefined for none, for a unit that is no area, and for no number. */
export function asArea(quantity: Maybe): Readonly<{ value: number; unit: AreaUnit }> | undefined {
  const value = Number(quantity?.value);
  return quantity !== undefined && isAreaUnit(quantity.unit) && Number.isFinite(value)
    ? { value, unit: quantity.unit }
    : undefined;
}

/** A length as a number of inches, feet or metres; undefined as above. */
export function lengthOf(quantity: Maybe, unit: 'in' | 'ft' | 'm'): number | undefined {
  const length = asLength(quantity);
  return length === undefined ? undefined : lengthIn(length.value, length.unit, unit);
}
