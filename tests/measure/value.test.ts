// No price, no value; a price by another rule is none.
import { describe, expect, test } from 'vitest';
import {
  doyle,
  inCords,
  internationalTable,
  lineValue,
  PRICE_UNITS,
  type PriceList,
  type PriceUnit,
  type SaleLine,
  smalian,
  stacked,
} from '../../src/measure/index.ts';
import { given, missing, number } from './figures.ts';

const list: PriceList<'doyle'> = {
  rule: 'doyle',
  unit: 'Mbf',
  currency: 'USD',
  date: '2026-11-01',
  buyerClass: 'stumpage',
  rows: [
    { species: 'red oak', product: 'sawlog', grade: '1', price: 500 },
    { species: 'red oak', product: 'sawlog', grade: null, price: 300 },
    { species: 'beech', product: 'sawlog', grade: '1', price: -20 },
  ],
};
const volume = given(doyle(16, 16));
const oak = { species: 'red oak', product: 'sawlog', grade: '1', volume } as const;

describe('the value of a line', () => {
  test('is its volume by thousand board feet times the price', () => {
    const value = given(lineValue(oak, list));
    expect(value.value).toBeCloseTo(72, 9);
    expect(value.unit).toBe('USD');
    expect(value.source).toContain('price list of 2026-11-01 (stumpage)');
  });

  test('takes the row of its own grade, and the row without one when it has none', () => {
    expect(number(lineValue({ ...oak, grade: null }, list))).toBeCloseTo(0.144 * 300, 9);
    expect(number(lineValue({ ...oak, species: 'beech' }, list))).toBeCloseTo(-2.88, 9);
  });

  test('without a price there is none, and it says for what', () => {
    expect(missing(lineValue({ ...oak, grade: '2' }, list))).toBe(
      'not enough data: no price for red oak, sawlog, 2 in the price list of 2026-11-01 (stumpage)',
    );
  });

  test('two prices for the same goods are no price', () => {
    const twice = {
      ...list,
      rows: [...list.rows, { species: 'red oak', product: 'sawlog', grade: '1', price: 510 }],
    };
    expect(missing(lineValue(oak, twice))).toContain('2 different prices');
  });

  test('a volume by another rule does not compile, and is refused when read', () => {
    const other = given(internationalTable(16, 16));
    // @ts-expect-error The list is by Doyle.
    const refused = lineValue({ ...oak, volume: other }, list);
    expect(missing(refused)).toContain('is by Doyle, the red oak, sawlog, 1 by International ¼-inch');
  });

  test('a price per cord is none for a rule in board feet', () => {
    expect(missing(lineValue(oak, { ...list, unit: 'cord' }))).toContain('prices per cord, which Doyle');
  });
});

test('each unit of price fits the rules measured in it', () => {
  const cubic = given(smalian({ small: 10, large: 12, length: 16 }, 'cubic-feet'));
  const metric = given(smalian({ small: 25, large: 29, length: 5 }, 'cubic-metres'));
  const cords = inCords(stacked(256, 'stacked-ft3'));
  const priced = (line: SaleLine['volume'], unit: PriceUnit) =>
    number(
      lineValue<SaleLine['volume']['rule']>({ ...oak, volume: line }, { ...list, rule: line.rule, unit }),
    );
  expect(priced(volume, 'bf')).toBeCloseTo(144 * 500, 6);
  expect(priced(volume, 'Mbf')).toBeCloseTo(72, 9);
  expect(priced(cubic, 'cunit')).toBeCloseTo(priced(cubic, 'ft3') / 100, 9);
  expect(priced(metric, 'm3')).toBeCloseTo(0.287848 * 500, 3);
  expect(priced(cords, 'cord')).toBe(1000);
  expect(PRICE_UNITS).toHaveLength(6);
});
