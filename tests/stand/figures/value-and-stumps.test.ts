/**
 * Value of standing volumes and what audited stumps stand for, as they come out of a logbook.
 * Volumes: worked example of Wiant 1986 (larsendr.github.io/mesavage.html). Stumps: general hardwood coefficients of the US
 * national inventory in the form of Raile 1982. Prices are invented; what is checked is the arithmetic and the refusals.
 */
import { describe, expect, test } from 'vitest';
import type { JsonObject } from '../../../src/events/index.ts';
import { isNotEnough } from '../../../src/measure/index.ts';
import { dbhOf } from '../../../src/stand/figures/dbh.ts';
import { fold, type LogEntry, stumpFigures, valueFigures } from '../../../src/stand/index.ts';
import { pen, uuid } from '../entries.ts';

const stemId = (number: number) => uuid(0x62_0000 + number);
const group = uuid(0x61_0000);
const length = (value: string, unit = 'in') => ({ text: `${value} ${unit}`, value, unit });
const redOak = { text: 'northern red oak', list: 'us', code: 'QURU' };
const method = { rule: 'international-quarter-inch', formClass: 78 } as const;

describe('value by the price list in force', () => {
  const write = pen();
  const tree = (stem: number, more: JsonObject = {}) =>
    write('stem-marked', {
      stem: stemId(stem),
      mark: 'cut',
      species: redOak,
      dbh: length('24'),
      merchantableHeight: length('40', 'ft'),
      product: 'sawlog',
      grade: 'F1',
      ...more,
    });
  const felled = (stem: number) => write('stem-felled', { stem: stemId(stem), came: 'down' });
  const prices = (more: JsonObject = {}, price = '450') =>
    write('prices-set', {
      rule: 'international-quarter-inch',
      unit: 'Mbf',
      currency: 'USD',
      date: '2026-03-01',
      buyerClass: 'mill delivered',
      rows: [{ species: redOak, product: 'sawlog', grade: 'F1', price }],
      ...more,
    });
  const value = (entries: readonly LogEntry[], buyerClass?: string) =>
    valueFigures(fold(entries), {
      method,
      column: 'removed',
      ...(buyerClass === undefined ? {} : { buyerClass }),
    });

  test('519.665 bf at 450 USD a thousand are worth 233.85 USD', () => {
    const { total, lines } = value([tree(1), felled(1), prices()]);
    expect(isNotEnough(total) ? Number.NaN : total.value).toBeCloseTo(519.665 * 0.45, 2);
    expect(lines).toMatchObject([{ species: 'northern red oak', product: 'sawlog', grade: 'F1' }]);
  });

  test('a later list for the same rule and buyers replaces the earlier one', () => {
    const { total } = value([tree(1), felled(1), prices(), prices({ date: '2026-06-01' }, '500')]);
    expect(total).toMatchObject({ value: expect.closeTo(519.665 * 0.5, 2) as number, unit: 'USD' });
  });

  test.each([
    ['without a list', [tree(1), felled(1)], 'no price list by International ¼-inch'],
    ['with a list by another rule', [tree(1), felled(1), prices({ rule: 'doyle' })], 'no price list'],
    [
      'with lists of two buyers',
      [tree(1), felled(1), prices(), prices({ buyerClass: 'stumpage' })],
      'say which buyers',
    ],
    [
      'of a grade that has no price',
      [tree(1, { grade: 'F3' }), felled(1), prices()],
      '1 of 1 line has no value',
    ],
    [
      'of what is sold as nobody knows what',
      [
        write('stem-marked', {
          stem: stemId(1),
          mark: 'cut',
          species: redOak,
          dbh: length('24'),
          merchantableHeight: length('40', 'ft'),
        }),
        felled(1),
        prices(),
      ],
      '1 of 1 line has no value',
    ],
    ['when nothing was removed', [tree(1), prices()], 'there is no stem'],
  ])('%s there is none', (_when, entries, why) => {
    expect(value(entries).total).toMatchObject({ notEnough: expect.stringContaining(why) as string });
  });

  test('of what has a price is no total where something has none', () => {
    const entries = [tree(1), felled(1), tree(2, { grade: 'F3' }), felled(2), prices()];
    const { lines, priced, total } = value(entries);
    expect(priced).toMatchObject({
      value: expect.closeTo(519.665 * 0.45, 2) as number,
      method: 'sum of 1 of 2 lines',
    });
    expect(total).toEqual({ notEnough: 'not enough data: 1 of 2 lines has no value' });
    expect(lines.map((line) => isNotEnough(line.value) && line.value.notEnough)).toContain(
      'not enough data: no price for northern red oak, sawlog, F3 in the price list of 2026-03-01 (mill delivered)',
    );
  });

  test('of two buyers one can be named', () => {
    const entries = [tree(1), felled(1), prices(), prices({ buyerClass: 'stumpage' }, '200')];
    expect(value(entries, 'Stumpage').total).toMatchObject({
      value: expect.closeTo(519.665 * 0.2, 2) as number,
    });
  });
});

describe('an audited stump', () => {
  const write = pen();
  const entries = [
    write('stem-marked', { stem: stemId(1), mark: 'cut', tag: 'A1', group, dbh: length('12.5') }),
    write('stem-felled', { stem: stemId(1), came: 'down' }),
    write('stump-audited', {
      tag: 'A1',
      group,
      diameterInside: length('14'),
      height: length('1', 'ft'),
      markSeen: true,
    }),
    write('stump-audited', { group, diameterOutside: length('14'), height: length('0.5', 'ft') }),
    write('stump-audited', { group, diameterOutside: length('14') }),
  ];
  const { rows } = stumpFigures(fold(entries), { system: 'inch', group });

  test('of 14 in inside bark at 1 ft stands for 12.36 in, beside what was measured on the stem', () => {
    expect(rows[0]).toMatchObject({
      stem: stemId(1),
      label: 'A1',
      markSeen: true,
      dbhFromStump: { value: expect.closeTo(12.3626, 4) as number, unit: 'in' },
      dbhMeasured: { value: expect.closeTo(12.5, 9) as number, unit: 'in' },
    });
  });

  test('of 14 in outside bark at half a foot stands for 10.44 in, and may be no stem of the log', () => {
    expect(rows[1]).toMatchObject({
      stem: null,
      label: 'no tag',
      dbhFromStump: { value: expect.closeTo(10.4444, 4) as number },
      dbhMeasured: null,
    });
  });

  test('that is named by its tag gives a stem that nobody measured its DBH', () => {
    const unmeasured = pen();
    const folded = fold([
      unmeasured('stem-marked', { stem: stemId(1), mark: 'cut', tag: 'A1', group }),
      unmeasured('stem-felled', { stem: stemId(1), came: 'down' }),
      unmeasured('stump-audited', {
        tag: 'a1',
        group,
        diameterInside: length('14'),
        height: length('1', 'ft'),
      }),
    ]);
    const stem = folded.stand.stems.get(stemId(1));
    expect(stem && dbhOf(stem)).toEqual({ inches: expect.closeTo(12.3626, 4) as number, from: 'stump' });
  });

  test('is told in centimetres in a metric logbook: 12.36 in are 31.40 cm', () => {
    const metric = stumpFigures(fold(entries), { system: 'metric', group }).rows[0];
    expect(metric).toMatchObject({
      dbhFromStump: { value: expect.closeTo(31.401, 3) as number, unit: 'cm' },
      dbhMeasured: { value: expect.closeTo(31.75, 9) as number, unit: 'cm' },
    });
  });

  test('stands for nothing without the height it was measured at', () => {
    expect(rows[2]?.dbhFromStump).toMatchObject({ notEnough: expect.stringContaining('height') as string });
  });
});
