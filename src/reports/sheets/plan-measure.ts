// What to measure first, in sentences: the measurement, what it would show if it came out otherwise, and what that would cost.
import type { FellingPlan } from '../../felling/index.ts';
import { lengthIn, type System } from '../../measure/index.ts';
import { rounded } from './model.ts';
import { called, costWords, far } from './plan-words.ts';

type First = NonNullable<FellingPlan['measureFirst']>;
type One = First['measurements'][number];

/** How many are printed; all that tell anything are in the JSON. */
const MOST = 3;

export function measureSentences({ measureFirst }: FellingPlan, system: System): string[] {
  if (measureFirst === undefined) return [];
  const { measurements, lookedAt, plannedAnew } = measureFirst;
  if (measurements.length === 0)
    return [
      `Measure first: nothing stands out. Of ${lookedAt} things that are not known exactly none would change the plan by itself if it were one standard error off.`,
    ];
  return [
    ...measurements
      .slice(0, MOST)
      .map(
        (one, at) => `${at === 0 ? 'Measure first' : 'Then'}: ${thing(one, system)}. ${shows(one, system)}`,
      ),
    plannedAnew < lookedAt
      ? `Of ${lookedAt} things that are not known exactly ${plannedAnew === 0 ? 'none was planned anew for: the plan was only held against each' : `the ${plannedAnew} that the plan holds worst against were planned anew`}. Two that are off together can do more.`
      : 'Each by itself, one standard error off. Two that are off together can do more.',
  ];
}

function thing({ what: { of, label, what, basis, value, error } }: One, system: System): string {
  const known = value === undefined ? '' : `, ${far(value, system)}`;
  const how =
    what === 'lean' && basis === 'assumed'
      ? ', which nobody noted'
      : `${known} ${basis === 'measured' ? 'as measured' : basis}`;
  const place = what === 'position' ? '' : how;
  return `${what} of ${called(of, label)}${place} (standard error ${small(error, system)})`;
}

function small(metres: number, system: System): string {
  return system === 'metric' ? `${rounded(metres, 1)} m` : `${rounded(lengthIn(metres, 'm', 'ft'), 1)} ft`;
}

function shows(
  { what, how, overLimit, lost, setAside, takenUp, more, changed }: One,
  system: System,
): string {
  const value = how.value === undefined || what.what === 'lean' ? '' : ` (${far(how.value, system)})`;
  const over = overLimit.filter((id) => !lost.includes(id));
  const results = [
    ...(over.length === 0 ? [] : [`the planned ${fall(over)} of ${over.join(', ')} would be over the limit`]),
    ...(lost.length === 0 ? [] : [`${lost.join(', ')} could not be aimed as planned any more`]),
    ...(setAside.length === 0 ? [] : [`${setAside.join(', ')} would have to stay`]),
    ...(takenUp.length === 0 ? [] : [`${takenUp.join(', ')} could be felled after all`]),
    ...(more.hangUps >= 0.005 || more.loss >= 0.005
      ? [`keeping to the plan would mean ${costWords(more)} than another one`]
      : changed && overLimit.length + setAside.length + takenUp.length === 0
        ? ['another order or aim would do about as well']
        : []),
  ];
  const said = results.length === 0 ? 'the plan would stay, with other chances' : results.join('; ');
  return `If it ${how.says}${value}, ${said}.`;
}

function fall(of: readonly string[]): string {
  return of.length === 1 ? 'fall' : 'falls';
}
