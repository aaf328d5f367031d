// Questions that need no look at what was recorded before: a time still to come, a size no tree has, a place
// far from the woods.
import type { Event, QuantityEntered } from '../events/index.ts';
import { isLengthUnit, lengthIn } from '../measure/index.ts';
import { farFrom, isUnresolved, type PositionEntered } from '../place/index.ts';
import { instantOf, locate, type Stand } from '../stand/index.ts';

export type Question = Readonly<{
  code: string;
  sentence: string;
  choices: readonly { answer: string; label: string }[];
}>;

export type Asked = Readonly<{
  event: Event;
  happenedAt: { at: string; precision: 'instant' | 'minute' | 'day' };
  now: number;
}>;

/** Words to record it all the same. */
export const anyway = (label = 'record it as typed') => ({ answer: 'anyway', label });

export function aboutTime(happenedAt: Asked['happenedAt'], now: number): Question[] {
  const start = happenedAt.precision === 'day' ? Date.parse(happenedAt.at) : instantOf(happenedAt);
  if (start <= now + 90_000) return [];
  return [
    {
      code: 'date-in-future',
      sentence: `${happenedAt.at} is still to come.`,
      choices: [anyway('record it with that time')],
    },
  ];
}

/** Sizes beyond these are asked about. Common practice, no source. */
const largest = { dbhInches: 100, heightFeet: 330, stumpHeightFeet: 6 };

export function aboutSizes(event: Event): Question[] {
  switch (event.type) {
    case 'stem-marked':
    case 'stem-measured':
      return [
        ...tooLarge('DBH', event.body.dbh, 'in', largest.dbhInches),
        ...tooLarge('height', event.body.height, 'ft', largest.heightFeet),
      ];
    case 'stem-felled':
      return [
        ...tooLarge('DBH', event.body.dbh, 'in', largest.dbhInches),
        ...tooLarge('stump height', event.body.stumpHeight, 'ft', largest.stumpHeightFeet),
      ];
    case 'sapling-protected':
      return [
        ...tooLarge('diameter', event.body.diameter, 'in', largest.dbhInches),
        ...tooLarge('height', event.body.height, 'ft', largest.heightFeet),
      ];
    default:
      return [];
  }
}

function tooLarge(
  what: string,
  quantity: QuantityEntered | undefined,
  unit: 'in' | 'ft',
  limit: number,
): Question[] {
  if (quantity === undefined || !isLengthUnit(quantity.unit)) return [];
  const value = lengthIn(Number(quantity.value), quantity.unit, unit);
  if (value > 0 && value <= limit) return [];
  const likely = value > limit ? likelyUnit(quantity, unit, limit) : undefined;
  return [
    {
      code: 'size',
      sentence: `A ${what} of ${quantity.text} (${quantity.unit}) ${value <= 0 ? 'is not above zero' : `is more than ${limit} ${unit}`}.${likely === undefined ? '' : ` Did you mean ${likely}?`}`,
      choices: [anyway()],
    },
  ];
}

/** The unit or decimal point that was probably meant. */
function likelyUnit({ value, unit }: QuantityEntered, into: 'in' | 'ft', limit: number): string | undefined {
  const number = Number(value);
  for (const smaller of ['cm', 'mm'] as const) {
    if (unit !== smaller && lengthIn(number, smaller, into) <= limit) return `${value} ${smaller}`;
  }
  return number / 10 <= limit ? `${number / 10} ${unit}` : undefined;
}

/** Things farther than this from their block are asked about, metres. Common practice, no source. */
const farMetres = 300;

export function aboutPlace(event: Event, stand: Stand, when: string): Question[] {
  const entered = 'position' in event.body ? event.body.position : undefined;
  if (entered === undefined || event.type === 'stake-set') return [];
  return farFromBlock(entered, event, stand, when);
}

function farFromBlock(entered: PositionEntered, event: Event, stand: Stand, when: string): Question[] {
  const locator = locate(stand);
  const at = locator.resolve({ entered, when, entry: '' });
  if (isUnresolved(at)) {
    return entered.how === 'unknown'
      ? []
      : [
          {
            code: 'position',
            sentence: `This position cannot be worked out: ${at.why}`,
            choices: [anyway('keep it as written')],
          },
        ];
  }
  const blocks = blocksOf(event, stand).flatMap((block) =>
    block.boundary ? [{ block, ...locator.ring(block.boundary, when) }] : [],
  );
  const known = blocks.filter(({ ring }) => ring.length >= 3);
  if (known.length === 0 || known.some(({ ring }) => !farFrom(at.at, ring, farMetres))) return [];
  const { lat, lon } = at.at;
  return [
    {
      code: 'far-from-block',
      sentence: `Latitude ${lat.toFixed(5)}, longitude ${lon.toFixed(5)} is more than ${farMetres} m from ${known.map(({ block }) => block.name).join(', ')}. Check the order of the numbers, their unit and the zone.`,
      choices: [anyway()],
    },
  ];
}

function blocksOf(event: Event, stand: Stand) {
  const body = event.body as { group?: string; block?: string };
  const block = body.block ?? (body.group === undefined ? undefined : stand.groups.get(body.group)?.block);
  const named = block === undefined ? undefined : stand.blocks.get(block);
  return named ? [named] : [...stand.blocks.values()];
}
