// Sizes that no tree has are slips of the unit or the decimal point. Which limit holds follows from the part
// that a length plays, so a new field of any kind is looked at without being listed here.
import { type Event, type Fields, type Form, kinds, type QuantityEntered } from '../events/index.ts';
import { isLengthUnit, lengthIn } from '../measure/index.ts';
import { doubtsAbout, likelyWords, type Stand, withUnit } from '../stand/index.ts';
import { anyway, type Question } from './question.ts';

type LengthRole = Extract<Form, { is: 'length' }>['role'];
type Limit = Readonly<{ unit: 'in' | 'ft'; most: number; zero: 'fits' | 'asks' }>;

/**
 * Sizes beyond these are asked about; nothing may be below zero, and where zero can be measured (a stump cut
 * flush, no sound shell left) it is no question. Common practice, no source.
 */
const limits: Readonly<Record<LengthRole, Limit>> = {
  diameter: { unit: 'in', most: 100, zero: 'asks' },
  height: { unit: 'ft', most: 330, zero: 'asks' },
  distance: { unit: 'ft', most: 330, zero: 'fits' },
  small: { unit: 'ft', most: 6, zero: 'fits' },
};

/** Where the name of the field is not what people say. */
const spoken: Readonly<Record<string, string>> = {
  dbh: 'DBH',
  upTheButt: 'decay height',
  radius: 'keep-away distance',
  floor: 'tally floor',
};

/**
 * Asks about every length of the entry that is out of reach, and about measures that contradict each other.
 * @param amending whether it takes the place of an entry that was measured before
 */
export function aboutSizes(event: Event, stand: Stand, amending: boolean): Question[] {
  const values = event.body as Readonly<Record<string, unknown>>;
  return [...aboutFields(kinds[event.type].fields, values), ...aboutStem(event, stand, amending)];
}

function aboutFields(fields: Fields, values: Readonly<Record<string, unknown>>): Question[] {
  return Object.entries(fields).flatMap(([name, { form }]) => {
    const value = values[name];
    return value === undefined ? [] : aboutValue(name, form, value);
  });
}

function aboutValue(name: string, form: Form, value: unknown): Question[] {
  switch (form.is) {
    case 'length':
      // No merchantable height at all is an answer too: somebody looked, and there is no log in the tree.
      if (name === 'merchantableHeight' && Number((value as QuantityEntered).value) === 0) return [];
      return aboutLength(nameInWords(name), value as QuantityEntered, form.role);
    case 'lean':
      return aboutLength('lean', (value as { offset: QuantityEntered }).offset, 'distance');
    case 'row':
      return aboutFields(form.columns, value as Readonly<Record<string, unknown>>);
    case 'list':
      return (value as readonly unknown[]).flatMap((one) => aboutValue(name, form.of, one));
    default:
      return [];
  }
}

function aboutLength(what: string, quantity: QuantityEntered, role: LengthRole): Question[] {
  const { unit, most, zero } = limits[role];
  const value = lengthOf(quantity, unit);
  if (value === undefined || (value > 0 && value <= most) || (value === 0 && zero === 'fits')) return [];
  const said = `A ${what} of ${withUnit(quantity)}`;
  if (value <= 0) return [size(`${said} is ${value === 0 ? 'not above zero' : 'below zero'}.`)];
  const likely = likelyUnit(quantity, unit, most);
  return [
    size(`${said} is more than ${most} ${unit}.${likely === undefined ? '' : ` Did you mean ${likely}?`}`),
  ];
}

/**
 * Measures that contradict each other, or what was measured before: as the fold would find them. Sizes of one measure
 * alone are asked about above.
 */
function aboutStem(event: Event, stand: Stand, amending: boolean): Question[] {
  const values = event.body as Readonly<Record<string, unknown>>;
  const stem = typeof values.stem === 'string' ? stand.stems.get(values.stem) : undefined;
  if (event.type === 'decay-measured')
    return doubts({ decay: { entry: '', body: event.body }, felling: stem?.felling }, stand);
  // Of a stump or a sapling a height is another thing.
  if (!('dbh' in kinds[event.type].fields)) return [];
  const { dbh, height, merchantableHeight } = values as Partial<Record<Measure, QuantityEntered>>;
  if ((dbh ?? height ?? merchantableHeight) === undefined) return [];
  // An amendment corrects what was measured; it is no later measurement.
  const before = dbh === undefined || amending ? undefined : stem?.dbh;
  const measures = {
    dbh: dbh ?? stem?.dbh,
    earlierDbh: before,
    height: height ?? stem?.height,
    merchantableHeight: merchantableHeight ?? stem?.merchantableHeight,
  };
  return doubts(measures, stand);
}

function doubts(measures: Parameters<typeof doubtsAbout>[0], stand: Stand): Question[] {
  return doubtsAbout(measures, stand)
    .filter(({ check }) => check !== 'dbh-too-large')
    .map((flag) => size(`${flag.sentence} ${likelyWords(flag)}`.trim()));
}

type Measure = 'dbh' | 'height' | 'merchantableHeight';

function size(sentence: string): Question {
  return { code: 'size', sentence, choices: [anyway()] };
}

function lengthOf({ value, unit }: QuantityEntered, into: 'in' | 'ft'): number | undefined {
  return isLengthUnit(unit) ? lengthIn(Number(value), unit, into) : undefined;
}

/** The unit or decimal point that was probably meant. */
function likelyUnit({ value, unit }: QuantityEntered, into: 'in' | 'ft', limit: number): string | undefined {
  const number = Number(value);
  for (const smaller of ['cm', 'mm'] as const) {
    if (unit !== smaller && lengthIn(number, smaller, into) <= limit) return `${value} ${smaller}`;
  }
  return number / 10 <= limit ? `${number / 10} ${unit}` : undefined;
}

/** `stumpHeight` as "stump height". */
function nameInWords(field: string): string {
  return spoken[field] ?? field.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
