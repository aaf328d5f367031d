// What standing volumes are worth by the price list in force. No price, no value: it says for what there is none.
import { speciesName } from '../../events/index.ts';
import {
  isNotEnough,
  lacking,
  lineValue,
  type NotEnough,
  notEnough,
  type PriceList,
  ruleName,
  type SaleLine,
  type VolumeRule,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { counted } from '../labels.ts';
import type { Stand, Tallied } from '../state.ts';
import type { ColumnName } from './table.ts';
import { type Answer, type TracedFigure, traced } from './traced.ts';
import { type VolumeAsked, type VolumeRow, volumeFigures } from './volume.ts';

export type ValueAsked = VolumeAsked &
  Readonly<{
    /** Which stems are sold: those that were removed, or those that are left, or all that there were. */
    column: ColumnName;
    /** Class of buyer, as the list has it; needed where lists of several are in force. */
    buyerClass?: string;
  }>;

export type ValueLine = Readonly<{
  species: string;
  product: string | null;
  grade: string | null;
  /** Volume and value; each says what is missing. A volume of some of the stems only has no value. */
  volume: Answer;
  value: Answer;
}>;

export type ValueFigures = Readonly<{
  column: ColumnName;
  list:
    | Readonly<{ date: string; buyerClass: string; unit: string; currency: string; rule: VolumeRule }>
    | NotEnough;
  lines: readonly ValueLine[];
  /** What the lines with a value come to, where some have none; it is no total. */
  priced: TracedFigure | null;
  total: Answer;
  restsOn: readonly string[];
  remarks: readonly string[];
}>;

export function valueFigures(folded: Folded, { column, buyerClass, ...asked }: ValueAsked): ValueFigures {
  const { rows, rule, total, remarks } = volumeFigures(folded, asked);
  const shown = rows.filter(({ columns }) => columns[column].stems > 0);
  const found = listInForce(folded.stand, rule, buyerClass);
  const restsOn = [...total[column].restsOn, ...('entry' in found ? [found.entry] : [])];
  const said = { column, restsOn, remarks };
  if (isNotEnough(found)) {
    const lines = shown.map((row) => ({ ...headOf(row), volume: row.columns[column].volume, value: found }));
    return { ...said, list: found, lines, priced: null, total: found };
  }
  const { list } = found;
  const lines = shown.map((row) => lineOf(row, column, found));
  const priced = sumOfPriced(lines, list);
  return {
    ...said,
    list: {
      date: list.date,
      buyerClass: list.buyerClass,
      unit: list.unit,
      currency: list.currency,
      rule: list.rule,
    },
    lines,
    priced,
    total: totalOf(lines, priced),
  };
}

/** What the lines that have a value come to together; null where none has one. */
function sumOfPriced(lines: readonly ValueLine[], list: PriceList): TracedFigure | null {
  const values = lines.flatMap(({ value }) => (isNotEnough(value) ? [] : [value]));
  if (values.length === 0) return null;
  return {
    value: values.reduce((sum, { value }) => sum + value, 0),
    unit: list.currency,
    method:
      values.length === lines.length
        ? `sum of ${counted(lines.length, 'line')}`
        : `sum of ${values.length} of ${counted(lines.length, 'line')}`,
    source: `price list of ${list.date} (${list.buyerClass})`,
    restsOn: [...new Set(values.flatMap(({ restsOn }) => restsOn))],
  };
}

/** All of it, or what it lacks: a sum of some lines is no total. */
function totalOf(lines: readonly ValueLine[], priced: TracedFigure | null): Answer {
  const missing = lines.filter(({ value }) => isNotEnough(value)).length;
  if (missing === 0) return priced ?? notEnough('there is no stem');
  return notEnough(lacking(missing, lines.length, 'line', 'value'));
}

function headOf({ species, product, grade }: VolumeRow): Pick<ValueLine, 'species' | 'product' | 'grade'> {
  return { species, product, grade };
}

function lineOf(row: VolumeRow, column: ColumnName, { list, entry }: Found): ValueLine {
  const { volume } = row.columns[column];
  const head = headOf(row);
  if (isNotEnough(volume)) return { ...head, volume, value: volume };
  if (row.product === null)
    return { ...head, volume, value: notEnough('what it is sold as is not recorded') };
  const line: SaleLine = { species: row.species, product: row.product, grade: row.grade, volume };
  return { ...head, volume, value: traced(lineValue(line, list), () => [...volume.restsOn, entry]) };
}

type Found = Readonly<{ list: PriceList; entry: string }>;

/** The list recorded last for the rule, and for the buyers that are named. */
export function listInForce(
  stand: Stand,
  rule: VolumeRule,
  buyerClass: string | undefined,
): Found | NotEnough {
  const same = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase();
  const lists = stand.prices.filter(
    ({ body }) => body.rule === rule && (buyerClass === undefined || same(body.buyerClass, buyerClass)),
  );
  const last = lists.at(-1);
  if (last === undefined)
    return notEnough(
      `no price list by ${ruleName(rule)}${buyerClass === undefined ? '' : ` of ${buyerClass}`} is recorded`,
    );
  const buyers = new Set(lists.map(({ body }) => body.buyerClass.trim().toLowerCase()));
  if (buyers.size > 1)
    return notEnough(`price lists of ${[...buyers].join(' and ')}; say which buyers are meant`);
  return { list: asList(last), entry: last.entry };
}

function asList({ body }: Tallied<'prices-set'>): PriceList {
  const { rule, unit, currency, date, buyerClass, rows } = body;
  return {
    rule,
    unit,
    currency,
    date,
    buyerClass,
    rows: rows.map(({ species, product, grade, price }) => ({
      species: speciesName(species),
      product,
      grade: grade ?? null,
      price: Number(price),
    })),
  };
}
