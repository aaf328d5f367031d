// Defects of a log as somebody types them, with semicolons between them.
import { lengthUnits, readQuantity } from '../../events/index.ts';
import { isLengthUnit, type LogDefect, lengthIn, type System } from '../../measure/index.ts';
import type { DefectAsked } from '../../stand/index.ts';
import { type Read, wrong } from './typed.ts';

/** How each defect is written: what it is, and the measures in their order. */
const examples: Readonly<Record<LogDefect['is'], string>> = {
  length: 'length 3 ft',
  sector: 'sector 90 deg 6 ft',
  sweep: 'sweep 4 in',
  crook: 'crook 5 in 6 ft',
  rot: 'rot 6 x 5 in 4 ft',
  square: 'square 6 x 5 in 4 ft',
};

const forms: Readonly<Record<LogDefect['is'], RegExp>> = {
  length: /^(?<feet>\S.*)$/,
  sector: /^(?<degrees>\d+(?:\.\d+)?)\s*(?:deg|°)\s+(?<feet>\S.*)$/,
  sweep: /^(?<inches>\S.*)$/,
  crook: /^(?<inches>\d+(?:\.\d+)?\s*(?:in|cm|mm))\s+(?<feet>\S.*)$/,
  rot: /^(?<one>\d+(?:\.\d+)?)\s*x\s*(?<other>\d+(?:\.\d+)?)\s*(?<unit>in|cm|mm)\s+(?<feet>\S.*)$/,
  square: /^(?<one>\d+(?:\.\d+)?)\s*x\s*(?<other>\d+(?:\.\d+)?)\s*(?<unit>in|cm|mm)\s+(?<feet>\S.*)$/,
};

/**
 * Reads "rot 6 x 5 in 4 ft; sweep 4 in"; nothing typed is no defect.
 * @param length whole length of the log, ft: a longer defect is a slip of whoever typed one of the two
 */
export function readDefects(
  text: string | undefined,
  { length, system }: Readonly<{ length: number; system: System }>,
): Read<readonly DefectAsked[]> {
  const parts = (text ?? '').split(';').map((part) => part.trim());
  const found: DefectAsked[] = [];
  for (const part of parts.filter((one) => one !== '')) {
    const defect = readDefect(part, system);
    if (typeof defect === 'string') return wrong('defects', part, defect);
    const larger = largerThanLog(defect, length);
    if (larger !== undefined) return wrong('defects', part, larger);
    found.push({ text: part, defect });
  }
  return { ok: true, value: found };
}

/** Two feet that differ by less than this are one length, written in other units. */
const SAME_FEET = 1e-9;

function largerThanLog(defect: LogDefect, length: number): string | undefined {
  if ('feet' in defect && defect.feet > length + SAME_FEET)
    return 'it is longer than the log; correct the length of the log or of the defect';
  return defect.is === 'sector' && defect.degrees > 360
    ? 'a sector has at most 360 degrees; correct it, or write a length for the whole section'
    : undefined;
}

/** The defect, or how it is to be written. */
function readDefect(text: string, system: System): LogDefect | string {
  const [is = '', ...rest] = text.split(/\s+/);
  if (!Object.hasOwn(examples, is)) return `write one of ${Object.values(examples).join('; ')}`;
  const kind = is as LogDefect['is'];
  const { groups } = forms[kind].exec(rest.join(' ')) ?? {};
  if (groups === undefined) return `write it like ${examples[kind]}`;
  const inches = (word: string | undefined) => length(word, 'in', system);
  const feet = length(groups.feet, 'ft', system);
  const measures = {
    feet,
    inches: inches(groups.inches),
    one: inches(groups.one === undefined ? undefined : `${groups.one} ${groups.unit}`),
    other: inches(groups.other === undefined ? undefined : `${groups.other} ${groups.unit}`),
    degrees: Number(groups.degrees),
  };
  const defect = defectOf(kind, measures);
  const numbers = Object.values(defect).filter((value) => typeof value === 'number');
  return numbers.every((value) => value > 0)
    ? defect
    : `write it like ${examples[kind]}, with measures above 0`;
}

type Measures = Readonly<Record<'feet' | 'inches' | 'one' | 'other' | 'degrees', number>>;

function defectOf(is: LogDefect['is'], { feet, inches, one, other, degrees }: Measures): LogDefect {
  switch (is) {
    case 'length':
      return { is, feet };
    case 'sector':
      return { is, degrees, feet };
    case 'sweep':
      return { is, inches };
    case 'crook':
      return { is, inches, feet };
    case 'rot':
      return { is, across: one, other, feet };
    case 'square':
      return { is, width: one, height: other, feet };
  }
}

/** NaN for what is no length. */
function length(text: string | undefined, unit: 'in' | 'ft', system: System): number {
  if (text === undefined) return Number.NaN;
  const bare = system === 'metric' ? (unit === 'in' ? 'cm' : 'm') : unit;
  const quantity = readQuantity(text, lengthUnits, bare);
  if (!quantity.ok || !isLengthUnit(quantity.value.unit)) return Number.NaN;
  return lengthIn(Number(quantity.value.value), quantity.value.unit, unit);
}
