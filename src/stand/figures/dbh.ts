// The DBH of a stem: as it was measured last, otherwise from its stump, and said which.
import { dbhFromStump, isNotEnough } from '../../measure/index.ts';
import type { Stem } from '../state.ts';
import { lengthOf } from './length.ts';

export type KnownDbh = Readonly<{ inches: number; from: 'measured' | 'stump' }>;

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
