/**
 * The table of the stand: the tally of reference figures (computed independently from the formulas of Reineke 1933 and
 * the definitions), the SCBI census, and in which column a stem stands.
 * Data: Smithsonian Conservation Biology Institute / ForestGEO, CC BY 4.0; credit in fixtures/scbi/LICENCE.txt.
 */
import { describe, expect, test } from 'vitest';
import { liveStems, speciesOf } from '../../../fixtures/scbi/census.ts';
import type { JsonObject } from '../../../src/events/index.ts';
import { isNotEnough, notEnough } from '../../../src/measure/index.ts';
import {
  type Answer,
  columnNames,
  figuresJson,
  fold,
  type LogEntry,
  standFigures,
  type TableAsked,
} from '../../../src/stand/index.ts';
import { pen, uuid } from '../entries.ts';

const block = uuid(0x60_0000);
const group = uuid(0x61_0000);
const stemId = (number: number) => uuid(0x62_0000 + number);
const length = (value: string, unit = 'in') => ({ text: `${value} ${unit}`, value, unit });
const acre = { text: '1 ac', value: '1', unit: 'ac' };
const inAll: TableAsked = { by: 'class', system: 'inch', block };

function framed(write: ReturnType<typeof pen>, scope: JsonObject = {}): LogEntry[] {
  return [
    write('logbook-opened', {
      name: 'x',
      zone: 'America/New_York',
      units: 'us',
      crs: 'EPSG:2264',
      breastHeight: length('4.5', 'ft'),
      breastHeightFrom: 'uphill-side',
    }),
    write('block-laid-out', { block, name: 'North', area: acre }),
    write('tally-scope-set', { block, coverage: 'complete', ...scope }),
    write('group-laid-out', { group, label: 'G1', block }),
  ];
}

const value = (answer: Answer): number => (isNotEnough(answer) ? Number.NaN : answer.value);

describe('on an acre with 80 stems of 4 in, 40 of 8, 30 of 12, 15 of 16 and 6 of 20', () => {
  const write = pen();
  const tally: readonly (readonly [dbh: string, count: number])[] = [
    ['4', 80],
    ['8', 40],
    ['12', 30],
    ['16', 15],
    ['20', 6],
  ];
  let number = 0;
  const stems = tally.flatMap(([dbh, count]) =>
    Array.from({ length: count }, () => {
      number += 1;
      return write('stem-marked', { stem: stemId(number), mark: 'leave', dbh: length(dbh), block });
    }),
  );
  const { rows, total, floor, breastHeight } = standFigures(fold([...framed(write), ...stems]), inAll);
  const left = total.cells.left;

  test.each([
    // COMPUTED from the definitions and Reineke 1933; the two sums beside each other as in the reference tally.
    ['stems', left.stems, 171, 0],
    ['ft²/ac', left.basalAreaPerArea, 78.5398, 4],
    ['QMD, in', left.quadraticMeanDiameter, 9.17663, 5],
    ['density index by QMD', left.sdiByQmd, 148.9713, 4],
    ['density index, summed', left.sdiBySummation, 136.6846, 4],
    ['relative density', left.curtisRelativeDensity, 25.9268, 4],
  ] as const)('%s', (_name, answer, expected, digits) => {
    expect(value(answer)).toBeCloseTo(expected, digits);
  });

  test('rows are two-inch classes that add up to all', () => {
    expect(rows.map(({ label }) => label)).toEqual([
      '3 to under 5 in',
      '7 to under 9 in',
      '11 to under 13 in',
      '15 to under 17 in',
      '19 to under 21 in',
    ]);
    const sum = (of: 'stems' | 'basalArea') =>
      rows.reduce((all, { cells }) => all + value(cells.left[of]), 0);
    expect(sum('stems')).toBe(171);
    expect(sum('basalArea')).toBeCloseTo(78.5398, 4);
  });

  test('what it rests on, how breast height was taken, and that every DBH counts, is said', () => {
    expect(left.stems).toMatchObject({ restsOn: stems.map(({ id }) => id) });
    expect([breastHeight, floor]).toEqual(['4.5 ft above the ground (uphill side)', null]);
  });
});

describe('of one block', () => {
  const write = pen();
  const marked = (stem: number, dbh: string | undefined, more: JsonObject = {}) =>
    write('stem-marked', {
      stem: stemId(stem),
      mark: 'cut',
      tag: `T${stem}`,
      group,
      ...(dbh === undefined ? {} : { dbh: length(dbh) }),
      ...more,
    });
  const entries = [
    ...framed(write, { floor: length('5') }),
    marked(1, '10'),
    marked(2, '12'),
    marked(3, '4.99'),
    marked(4, '5'),
    marked(5, '20', { vigor: 'dead' }),
    marked(6, '14'),
    marked(7, '16'),
    write('stem-felled', { stem: stemId(1), came: 'down' }),
    write('stem-felled', { stem: stemId(2), came: 'hung-up' }),
    write('stem-found-dead', { stem: stemId(6) }),
    write('stem-felled', { stem: stemId(6), came: 'down' }),
  ];
  const folded = fold(entries);

  test('a stem stands in one column: felled or hung up, dead by itself even if it is cut later, or left', () => {
    const { cells } = standFigures(folded, inAll).total;
    expect(columnNames.map((name) => value(cells[name].stems))).toEqual([5, 2, 1, 2]);
  });

  test('one that was dead when first seen is in none, one at the floor is in, one a hair under it is not', () => {
    const { rows, floor } = standFigures(folded, inAll);
    expect(floor).toBe('5 in');
    expect(rows.map(({ label }) => label)).not.toContain('19 to under 21 in');
    expect(value(rows[0]?.cells.left.stems ?? notEnough('no row'))).toBe(1);
  });

  test('what was cut before a period was not there', () => {
    const felled = Date.parse(entries.at(-3)?.happenedAt.at ?? '');
    const { cells } = standFigures(folded, { ...inAll, from: felled }).total;
    expect(columnNames.map((name) => value(cells[name].stems))).toEqual([4, 1, 1, 2]);
  });

  test('figures per acre are not given for a group, and not without a complete tally', () => {
    const ofGroup = standFigures(folded, { ...inAll, group });
    expect(isNotEnough(ofGroup.total.cells.left.stemsPerArea)).toBe(true);
    expect(isNotEnough(ofGroup.land)).toBe(true);
    const partial = fold([...entries, write('tally-scope-set', { block, coverage: 'partial' })]);
    expect(standFigures(partial, inAll).land).toMatchObject({
      notEnough: expect.stringContaining('no complete tally') as string,
    });
  });

  test('a stem without a DBH takes the basal area away, not the count', () => {
    const { total, remarks } = standFigures(fold([...entries, marked(8, undefined)]), inAll);
    expect(value(total.cells.left.stems)).toBe(3);
    expect(total.cells.left.basalArea).toMatchObject({
      notEnough: expect.stringContaining('1 of 3 stems has no DBH') as string,
    });
    expect(remarks.join(' ')).toContain('1 stem without a DBH: T8.');
  });

  test('a stump of 14 in inside bark at 1 ft stands for 12.36 in, and it is said that it was the stump', () => {
    // Raile 1982 with general hardwood coefficients of the US national inventory: 14 / 1.132450.
    const more = [
      marked(9, undefined),
      write('stem-felled', {
        stem: stemId(9),
        came: 'down',
        stumpDiameter: length('14'),
        stumpHeight: length('1', 'ft'),
      }),
    ];
    const { rows, remarks } = standFigures(fold([...entries, ...more]), inAll);
    const row = rows.find(({ label }) => label === '11 to under 13 in');
    expect(value(row?.cells.removed.stems ?? notEnough('no row'))).toBe(2);
    expect(remarks.join(' ')).toContain('DBH from the stump (general hardwood coefficients) for 1 stem: T9.');
  });

  test('in JSON every figure has value, unit, method, source and the numbers of its entries', () => {
    const numbered = fold(entries.map((entry, position) => ({ ...entry, position })));
    const json = figuresJson(standFigures(numbered, inAll), numbered) as {
      total: { cells: { removed: { basalArea: object } } };
    };
    expect(json.total.cells.removed.basalArea).toEqual({
      value: expect.closeTo((Math.PI / 576) * (100 + 144), 6) as number,
      unit: 'ft2',
      method: 'sum of π/4 · DBH²',
      source: 'definition',
      restsOn: [4, 11, 5, 12],
    });
  });
});

test('the SCBI census has 157 live stems of at least 5 in, in 38.25 m² per hectare of all sizes', () => {
  const write = pen();
  const hectares = { text: '0.48 ha', value: '0.48', unit: 'ha' };
  const entries = [
    ...framed(write, { area: hectares }),
    ...liveStems().map((row, index) =>
      write('stem-marked', {
        stem: stemId(index),
        mark: 'leave',
        block,
        dbh: length(row.dbh_mm, 'mm'),
        species: { text: speciesOf(row.sp), list: 'x', code: row.sp },
      }),
    ),
  ];
  const folded = fold(entries);
  const all = standFigures(folded, { ...inAll, by: 'species', system: 'metric' });
  expect(value(all.total.cells.before.basalAreaPerArea)).toBeCloseTo(38.25, 2);
  const large = standFigures(folded, { ...inAll, floor: { value: 5, unit: 'in' } });
  expect(value(large.total.cells.before.stems)).toBe(157);
});
