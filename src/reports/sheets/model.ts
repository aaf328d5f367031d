// A sheet: figures in words and tables, for the terminal and the page alike. Rounding happens here and nowhere else.
import { type Figure, isNotEnough, type NotEnough } from '../../measure/index.ts';

export type Sheet = Readonly<{
  title: string;
  lead: readonly string[];
  tables: readonly SheetTable[];
  /** What must be read with the figures. */
  remarks: readonly string[];
}>;

export type SheetTable = Readonly<{
  caption: string;
  columns: readonly Readonly<{ title: string; kind: 'head' | 'number' | 'words' }>[];
  rows: readonly (readonly string[])[];
}>;

/** The column that names the row. */
export function head(title: string): SheetTable['columns'][number] {
  return { title, kind: 'head' };
}

export function number(title: string): SheetTable['columns'][number] {
  return { title, kind: 'number' };
}

export function wordy(title: string): SheetTable['columns'][number] {
  return { title, kind: 'words' };
}

/** A value with so many decimals; a dash where there is none. Why there is none is said beside the table. */
export function shown(answer: Figure | NotEnough | null, decimals: number): string {
  return answer === null || isNotEnough(answer) ? '–' : rounded(answer.value, decimals);
}

export function rounded(value: number, decimals: number): string {
  if (Number.isNaN(value)) return 'none can be told';
  if (value === Number.POSITIVE_INFINITY) return 'without end';
  return value.toLocaleString('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
}

/** Units as they are written: "ft2/ac" as ft²/ac. */
export function unitWords(unit: string): string {
  return unit.replace(/(?<=[a-z])2/g, '²').replace(/(?<=[a-z])3/g, '³');
}

/** The sentence of what is missing, as a sentence of its own. */
export function missingSentence({ notEnough }: NotEnough): string {
  const sentence = notEnough.charAt(0).toUpperCase() + notEnough.slice(1);
  return /[.!?]$/.test(sentence) ? sentence : `${sentence}.`;
}

/** What is missing as the end of a sentence that goes on from something else: no capital, and no full stop of its own. */
export function missingWords({ notEnough }: NotEnough): string {
  return notEnough.replace(/\.$/, '');
}

/** A scaling length: whole feet, or hundredths where a rule takes the length as measured. */
export function feet(length: number): string {
  return rounded(length, Number.isInteger(length) ? 0 : 2);
}
