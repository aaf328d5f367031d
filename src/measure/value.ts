/**
 * What volumes are worth by a price list. A list speaks for one rule, one date and one class of buyer; a volume by
 * another rule has no price in it, and what has no price has no value: it is named, and nothing is put in its place.
 */
import type { Figure, NotEnough } from './figure.ts';
import { notEnough } from './figure.ts';
import { ruleName, ruleUnit, type Volume, type VolumeRule, type VolumeUnit } from './logs/volume.ts';

/** What a price is for: one board foot or a thousand, cubic feet by one or a hundred, cubic metres, cords. */
export type PriceUnit = 'bf' | 'Mbf' | 'ft3' | 'cunit' | 'm3' | 'cord';

const PRICED: Readonly<Record<PriceUnit, Readonly<{ unit: VolumeUnit; count: number }>>> = {
  bf: { unit: 'bf', count: 1 },
  Mbf: { unit: 'bf', count: 1000 },
  ft3: { unit: 'ft3', count: 1 },
  cunit: { unit: 'ft3', count: 100 },
  m3: { unit: 'm3', count: 1 },
  cord: { unit: 'cord', count: 1 },
};

/** All units a price can be for, in the order they are offered. */
export const PRICE_UNITS: readonly [PriceUnit, ...PriceUnit[]] = ['bf', 'Mbf', 'ft3', 'cunit', 'm3', 'cord'];

/** What is sold: a row of a price list and a line of a sale meet when all three are the same words. */
export type Goods = Readonly<{ species: string; product: string; grade: string | null }>;

/** A price for one kind of goods; below zero when the buyer is paid to take it. */
export type PriceRow = Goods & Readonly<{ price: number }>;

/** A price list as somebody gave it: `date` and `buyerClass` (mill delivered, stumpage, firewood …) as written. */
export type PriceList<Rule extends VolumeRule = VolumeRule> = Readonly<{
  rule: Rule;
  unit: PriceUnit;
  currency: string;
  date: string;
  buyerClass: string;
  rows: readonly PriceRow[];
}>;

/** A volume of one kind of goods. */
export type SaleLine<Rule extends VolumeRule = VolumeRule> = Goods & Readonly<{ volume: Volume<Rule> }>;

/** The value of a volume by a list, in its currency and unrounded; or which price is missing or does not fit. */
export function lineValue<Rule extends VolumeRule>(
  line: SaleLine<NoInfer<Rule>>,
  list: PriceList<Rule>,
): Figure | NotEnough {
  const listed = `the price list of ${list.date} (${list.buyerClass})`;
  if (line.volume.rule !== list.rule) {
    const [list_, mine] = [ruleName(list.rule), ruleName(line.volume.rule)];
    return notEnough(`${listed} is by ${list_}, the ${goodsInWords(line)} by ${mine}; scale by one rule`);
  }
  const priced = PRICED[list.unit];
  if (priced.unit !== ruleUnit(list.rule)) {
    return notEnough(
      `${listed} has prices per ${list.unit}, which ${ruleName(list.rule)} is not measured in`,
    );
  }
  const prices = list.rows.filter((row) => sameGoods(row, line)).map(({ price }) => price);
  const [price, ...others] = [...new Set(prices)];
  if (price === undefined || !Number.isFinite(price))
    return notEnough(`no price for ${goodsInWords(line)} in ${listed}`);
  if (others.length > 0)
    return notEnough(`${prices.length} different prices for ${goodsInWords(line)} in ${listed}`);
  return {
    value: (line.volume.value / priced.count) * price,
    unit: list.currency,
    method: `${line.volume.method}; × ${price} ${list.currency} per ${list.unit}`,
    source: `${line.volume.source}; price list of ${list.date} (${list.buyerClass})`,
  };
}

function sameGoods(one: Goods, other: Goods): boolean {
  return one.species === other.species && one.product === other.product && one.grade === other.grade;
}

function goodsInWords({ species, product, grade }: Goods): string {
  return [species, product, ...(grade === null ? [] : [grade])].join(', ');
}
