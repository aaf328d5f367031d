// Numbers of a file: decimal commas, values that stand for "unknown", and units that nobody wrote. Text stays text.
import type { Doubting } from '../doubt.ts';
import { amount } from '../doubt.ts';

export type Cell = Readonly<{ where: string; text: string }>;

/** Numbers that programs and people write where nothing was measured. */
const sentinels = /^-?(?:9{3,6}(?:[.,]0+)?|0(?:[.,]0+)?)$|^-[19](?:[.,]0+)?$/;
const blanks = /^(?:na|n\/a|nan|null|none|nil|-|--|\.|\?)$/i;

/** Words and signs for "nothing here" are nothing; they are no number that could be meant. */
export function isBlank(text: string): boolean {
  return text === '' || blanks.test(text);
}

/**
 * Asks about numbers in a column of measures that look like stand-ins for "unknown".
 * @returns whether a text is to be left out
 */
export function sentinelsIn(
  what: string,
  cells: readonly Cell[],
  doubts: Doubting,
): (text: string) => boolean {
  const found = cells.filter(({ text }) => sentinels.test(text));
  if (found.length === 0) return () => false;
  const said = [...new Set(found.map(({ text }) => text))].slice(0, 4).join(', ');
  const answer = doubts.ask({
    code: `sentinel-${what}`,
    sentence: `${what} is ${said} in ${amount(
      found.map(({ where }) => where),
      ['place', 'places'],
    )}; such numbers often stand for "not measured".`,
    where: found.map(({ where }) => where),
    choices: [
      { answer: 'leave-out', label: 'it was not measured: leave it out' },
      { answer: 'as-written', label: 'it was measured so' },
    ],
  });
  return answer === 'as-written' ? () => false : (text) => sentinels.test(text);
}

/** Whether numbers of the file have a decimal comma; asked, for 1,250 may be a thousand and more. */
export function decimalComma(cells: readonly Cell[], doubts: Doubting): (text: string) => string {
  const found = cells.filter(({ text }) => /^-?\d+,\d+$/.test(text));
  if (found.length === 0) return (text) => text;
  const [one] = found;
  const answer = doubts.ask({
    code: 'decimal-comma',
    sentence: `Numbers such as "${one?.text}" have a comma in ${amount(
      found.map(({ where }) => where),
      ['place', 'places'],
    )}.`,
    where: found.map(({ where }) => where),
    choices: [
      { answer: 'decimal', label: `it is a decimal comma: ${one?.text.replace(',', '.')}` },
      { answer: 'thousands', label: `it divides thousands: ${one?.text.replace(',', '')}` },
    ],
  });
  const by = answer === 'thousands' ? '' : '.';
  return (text) => (/^-?\d+,\d+$/.test(text) ? text.replace(',', by) : text);
}

const unitNames: Readonly<Record<string, string>> = {
  in: 'inches',
  ft: 'feet',
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
};

/** The unit of a column whose numbers have none, asked when neither heading nor mapping says it. */
export function unitOf(
  what: string,
  {
    cells,
    unit,
    usual,
    choices,
  }: { cells: readonly Cell[]; unit: string | undefined; usual: string; choices: readonly string[] },
  doubts: Doubting,
): string {
  const bare = cells.filter(({ text }) => /^-?[\d.,]+$/.test(text));
  if (unit !== undefined || bare.length === 0) return unit ?? usual;
  const largest = bare.reduce((most, { text }) => Math.max(most, Number(text)), 0);
  const answer = doubts.ask({
    code: `unit-${what}`,
    sentence: `No unit is written with ${what}; the largest is ${largest}.`,
    where: bare.map(({ where }) => where),
    choices: choices.map((one) => ({
      answer: one,
      label: `${unitNames[one] ?? one}${one === usual ? ", this logbook's own unit" : ''}`,
    })),
  });
  return answer ?? usual;
}

/** A number as the log keeps it: plain decimals, at most twelve places; undefined for what is no number. */
export function plainNumber(text: string): string | undefined {
  const written = text
    .trim()
    .replace(/^\+/, '')
    .replace(/^(-?)\./, '$10.')
    .replace(/\.$/, '');
  if (/^-?\d{1,12}(?:\.\d{1,12})?$/.test(written)) return written;
  if (/^-?\d{1,12}\.\d+$/.test(written)) return written.slice(0, written.indexOf('.') + 13);
  if (!/^-?\d+(?:\.\d+)?e[-+]?\d{1,3}$/i.test(written)) return undefined;
  const value = Number(written);
  return Number.isFinite(value) && Math.abs(value) < 1e12 ? value.toFixed(12) : undefined;
}
