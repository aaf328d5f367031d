// Was it the right group to take? Decay at the examined stumps of a group against all other examined stumps.
import {
  compareDecay,
  type ExaminedStump,
  type GroupComparison,
  isNotEnough,
  type NotEnough,
  type System,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import type { Stem } from '../state.ts';
import { isDecay } from '../stem-facts.ts';
import { lengthOf } from './length.ts';
import type { TracedFigure } from './traced.ts';

/** The comparison with the entries that each part rests on. */
export type DecayComparison = Readonly<{
  frequency: Traced<GroupComparison['frequency']>;
  length: Traced<GroupComparison['length']>;
  remarks: GroupComparison['remarks'];
}>;
/** Its value is the odds ratio, or the shift in feet or metres; both may be infinite or none where a side is all alike. */
type Traced<T> = NotEnough | (Exclude<T, NotEnough> & TracedFigure);

/**
 * Frequency and length up the butt, each with its uncertainty. No verdict.
 * @param group id of a group
 */
export function decayComparison({ stand }: Folded, group: string, system: System): DecayComparison {
  const examined = [...stand.stems.values()].filter(({ decay }) => decay !== undefined);
  const here = examined.filter((stem) => stem.group === group);
  const there = examined.filter((stem) => stem.group !== group);
  const unit = system === 'inch' ? 'ft' : 'm';
  const stump = (stem: Stem) => stumpOf(stem, unit);
  const { frequency, length, remarks } = compareDecay(here.map(stump), there.map(stump), unit);
  const restsOn = [...here, ...there].flatMap(({ decay }) => (decay === undefined ? [] : [decay.entry]));
  return {
    frequency: isNotEnough(frequency)
      ? frequency
      : { ...frequency, value: frequency.test.oddsRatio, unit: 'odds ratio', restsOn },
    length: isNotEnough(length) ? length : { ...length, value: length.test.shift, restsOn },
    remarks,
  };
}

function stumpOf({ decay }: Stem, unit: 'ft' | 'm'): ExaminedStump {
  const found = decay?.body.found;
  const upTheButt = lengthOf(decay?.body.upTheButt, unit);
  return {
    decayed: found !== undefined && isDecay(found),
    ...(upTheButt === undefined || upTheButt < 0 ? {} : { upTheButt }),
  };
}
