// The DBH of a stem: as it was measured last, otherwise from its stump, and said which.
import type { QuantityEntered } from '../../events/index.ts';
import { dbhFromStump, isNotEnough } from '../../measure/index.ts';
import type { Stem } from '../state.ts';
import { stumpDiameterOf } from '../stem-facts.ts';
import { lengthOf } from './length.ts';

export type KnownDbh = Readonly<{ inches: number; from: 'measured' | 'stump' }>;

/** Undefined when neither the stem nor its stump was measured. */
export function dbhOf(stem: Stem): KnownDbh | undefined {
  const measured = lengthOf(stem.dbh, 'in');
  if (measured !== undefined) return { inches: measured, from: 'measured' };
  for (const { diameter, bark, height } of stumpMeasures(stem)) {
    const inches = lengthOf(diameter, 'in');
    const feet = lengthOf(height, 'ft');
    if (inches === undefined || inches <= 0 || feet === undefined) continue;
    const dbh = dbhFromStump({ value: inches, unit: 'in', bark }, { value: feet, unit: 'ft' });
    if (!isNotEnough(dbh)) return { inches: dbh.value, from: 'stump' };
  }
  return undefined;
}

type StumpMeasure = Readonly<{
  diameter: QuantityEntered | undefined;
  bark: 'inside' | 'outside';
  height: QuantityEntered | undefined;
}>;

/** What is known of the stump: from the felling, from looking for decay, from an audit with its own height. */
function stumpMeasures({ felling, decay, stump }: Stem): readonly StumpMeasure[] {
  const height = felling?.details.stumpHeight;
  const audited = stump?.body;
  return [
    { diameter: stumpDiameterOf({ felling, decay }), bark: 'inside', height },
    { diameter: audited?.diameterInside, bark: 'inside', height: audited?.height },
    { diameter: audited?.diameterOutside, bark: 'outside', height: audited?.height },
  ];
}
