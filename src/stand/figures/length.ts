// Lengths as they were entered, in the unit that a formula takes.
import type { QuantityEntered } from '../../events/index.ts';
import { isLengthUnit, lengthIn } from '../../measure/index.ts';

/** A length as it was entered, in inches or feet; undefined for none and for a unit that is no length. */
export function lengthOf(quantity: QuantityEntered | undefined, unit: 'in' | 'ft'): number | undefined {
  if (quantity === undefined || !isLengthUnit(quantity.unit)) return undefined;
  const value = lengthIn(Number(quantity.value), quantity.unit, unit);
  return Number.isFinite(value) ? value : undefined;
}
