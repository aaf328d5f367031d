// What standing volumes are worth by the price list in force. No price, no value: it says for what there is none.
import { speciesName } from '../../events/index.ts';
import {
  type Figure,
  isNotEnough,
  type NotEnough,
  notEnough,
  type PriceList,
  ruleName,
  type SaleLine,
  type VolumeRule,
  valuation,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import type { Stand, Tallied } from '../state.ts';
import type { ColumnName } from './table.ts';
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
  volume: Figure | NotEnough;
  value: Figure | NotEnough;
}>;

export type ValueFigures = Readonly<{
  column: ColumnName;
  list:
    | Readonly<{ date: string; buyerClass: string; unit: string; currency: string; rule: VolumeRule }>
    | NotEnough;
  lines: readonly ValueLine[];
  total: Figure | NotEnough;
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
    return { ...said, list: found, lines, total: found };
  }
  const { list } = found;
  const lines = shown.map((row) => lineOf(row, column, list));
  const missing = lines.filter(({ value }) => isNotEnough(value));
  const values = lines.flatMap(({ value }) => (isNotEnough(value) ? [] : [value.value]));
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
    total:
      missing.length > 0 || lines.length === 0
        ? notEnough(
            lines.length === 0
              ? 'there is no stem'
              : `${missing.length} of ${lines.length} lines have no value`,
          )
        : {
            value: values.reduce((sum, value) => sum + value, 0),
            unit: list.currency,
            method: `sum of ${lines.length} lines`,
            source: `price list of ${list.date} (${list.buyerClass})`,
          },
  };
}

function headOf({ species, product, grade }: VolumeRow): Pick<ValueLine, 'species' | 'product' | 'grade'> {
  return { species, product, grade };
}

function lineOf(row: VolumeRow, column: ColumnName, list: PriceList): ValueLine {
  const { volume } = row.columns[column];
  const head = headOf(row);
  if (isNotEnough(volume)) return { ...head, volume, value: volume };
  if (row.product === null)
    return { ...head, volume, value: notEnough('what it is sold as is not recorded') };
  const line: SaleLine = { species: row.species, product: row.product, grade: row.grade, volume };
  const [valued] = valuation([line], list).lines;
  return { ...head, volume, value: valued?.value ?? notEnough('no price') };
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
