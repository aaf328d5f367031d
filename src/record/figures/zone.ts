// A zone: the ground within a distance of a stake or a stem. What has no place cannot be told to be in it.
import { lengthUnits, readQuantity } from '../../events/index.ts';
import { isLengthUnit, lengthIn } from '../../measure/index.ts';
import { distanceAndAzimuth, isUnresolved } from '../../place/index.ts';
import { type CountAsked, findThing, locate, type Stand } from '../../stand/index.ts';
import { type FiguresTyped, type Read, wrong } from './typed.ts';

/** `around` is "stake A" or "stem A12", `radius` a distance; both or none. */
export function readZone(
  stand: Stand,
  { around, radius }: FiguresTyped,
  units: 'us' | 'metric',
): Read<Pick<CountAsked, 'zone'>> {
  if (around === undefined && radius === undefined) return { ok: true, value: {} };
  const [, noun, label] = /^(stake|stem)\s+(.+)$/i.exec(around?.trim() ?? '') ?? [];
  if (label === undefined) return wrong('around', around, 'say the middle of the zone, such as "stake A"');
  const found = findThing(stand, noun?.toLowerCase() === 'stem' ? 'stem' : 'stake', label, new Map());
  if (!found.ok) return wrong('around', around, found.remedy);
  const quantity = readQuantity(radius ?? '', lengthUnits, units === 'us' ? 'ft' : 'm');
  if (!quantity.ok) return wrong('radius', radius, quantity.remedy);
  const { value, unit, text } = quantity.value;
  if (!isLengthUnit(unit) || !(Number(value) > 0)) return wrong('radius', radius, 'write a length above 0');
  const metres = lengthIn(Number(value), unit, 'm');
  const locator = locate(stand);
  const middle = noun?.toLowerCase() === 'stem' ? locator.stem(found.value) : locator.stake(found.value);
  if (isUnresolved(middle)) return wrong('around', around, middle.why);
  const written = /[a-z'"′″]/i.test(text) ? text : `${text} ${unit}`;
  return {
    ok: true,
    value: {
      zone: {
        words: `within ${written} of ${around?.trim() ?? ''}`,
        holds: (stem) => {
          const at = locator.resolve(stem.position);
          return isUnresolved(at) ? undefined : distanceAndAzimuth(middle.at, at.at).metres <= metres;
        },
      },
    },
  };
}
