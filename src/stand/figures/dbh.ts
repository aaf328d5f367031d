// The DBH of a stem: as it was measured last, otherwise from its stump, and said which.
import type { QuantityEntered } from '../../events/index.ts';
import { dbhFromStump, isLengthUnit, isNotEnough, lengthIn } from '../../measure/index.ts';
import type { Stem } from '../state.ts';

export type KnownDbh = Readonly<{ inches: number; from: 'measured' | 'stump' }>;

/** A length as it was entered, in inches or feet; undefined for none and for a unit that is no length. */
export function lengthOf(quantity: QuantityEntered | undefined, unit: 'in' | 'ft'): number | undefined {
  if (quantity === undefined || !isLengthUnit(quantity.unit)) return undefined;
  const value = lengthIn(Number(quantity.value), quantity.unit, unit);
  return Number.isFinite(value) ? value : undefined;
}

/** Undefined when neither the stem nor its stump was measured. */
export function dbhOf(stem: Stem): KnownDbh | undefined {
  const measured = lengthOf(stem.dbh, 'in');
  if (measured !== undefined) return { inches: measured, from: 'measured' };
  const diameter = lengthOf(stem.felling?.details.stumpDiameter ?? stem.decay?.body.stumpDiameter, 'in');
  const height = lengthOf(stem.felling?.details.stumpHeight, 'ft');
  if (diameter === undefined || diameter <= 0) return undefined;
  const estimated = dbhFromStump(
    { value: diameter, unit: 'in', bark: 'inside' },
    height === undefined ? undefined : { value: height, unit: 'ft' },
  );
  return isNotEnough(estimated) ? undefined : { inches: estimated.value, from: 'stump' };
}
