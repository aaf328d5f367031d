/**
 * A traverse and zones as somebody types them, down to the sheet. The traverse is the one worked by hand in
 * tests/reference/traverse.test.ts (formulas of J. Mahun, Traverse computations): 1 in 701, 30,099.857 after the compass rule.
 */
import { describe, expect, test } from 'vitest';
import { type FiguresTyped, readFigures } from '../../../src/record/figures/index.ts';
import { sheetOf } from '../../../src/reports/sheets/index.ts';
import { type FigureKind, fold } from '../../../src/stand/index.ts';
import { pen, uuid } from '../../stand/entries.ts';

const write = pen();
const corner = (lat: string, lon: string) => ({ how: 'fix', lat, lon });
const folded = fold([
  write('logbook-opened', { name: 'Cold Spring', zone: 'America/New_York', units: 'us', crs: 'EPSG:2264' }),
  write('block-laid-out', {
    block: uuid(0xb1),
    name: 'North cove',
    boundary: [corner('35.71', '-81.69'), corner('35.72', '-81.69'), corner('35.72', '-81.68')],
  }),
]);
const ask = (what: FigureKind, typed: FiguresTyped) =>
  readFigures(what, folded, typed, '2026-03-03T00:00:00Z');

function sheet(what: FigureKind, typed: FiguresTyped) {
  const asked = ask(what, typed);
  if (!asked.ok) throw new Error(`${asked.field} "${asked.value}": ${asked.remedy}`);
  return sheetOf(asked.value);
}

describe('a traverse', () => {
  const legs = '45 true 200 ft; 135 true 150 ft; 225 true 200 ft; 315 true 151 ft';

  test('is printed with its misclosure, and not adjusted unless that is asked for', () => {
    const { lead, tables } = sheet('traverse', { legs });
    expect(lead[0]).toBe('Perimeter 701.0 ft. It misses its start by 1.00 ft towards 315.0°: 1 in 701.');
    expect(lead[1]).toContain('not adjusted');
    expect(tables).toHaveLength(1);
    expect(tables[0]?.rows[1]).toEqual(['2', '135.00', '150.00', '-106.07', '106.07']);
  });

  test('adjusted by the compass rule encloses 30,099.9 ft², 0.691 ac', () => {
    // 30,099.857 / 43,560 = 0.69100 ac.
    expect(sheet('traverse', { legs, adjust: 'yes' }).lead[1]).toMatch(
      /adjusted by the compass rule 30,099\.9 ft², 0\.691 ac/,
    );
  });

  test('is level where a slope is given: 100 ft on 50 % are 89.443 ft', () => {
    const sloped =
      '0 mag 100 ft, slope 50 %; 90 mag 100 ft, slope 50 %; 180 mag 100 ft, slope 50 %; 270 mag 100 ft slope 50 %';
    const { lead, tables } = sheet('traverse', { legs: sloped });
    expect(lead[0]).toBe('Perimeter 357.8 ft. It closes exactly.');
    expect(tables[0]?.rows.map((row) => row[2])).toEqual(Array(4).fill('89.44'));
  });

  test.each([
    [{ legs: '45 true 200 ft; 135 true 150 ft' }, 'legs', /three legs/],
    [{ legs: '45 true 200 ft; 135 mag 150 ft; 225 true 9 ft' }, 'legs', /same north/],
    [{ legs: '45 true 200 ft; 400 true 150 ft; 225 true 9 ft' }, 'legs', /^leg 2: /],
    [{ legs: '45 true 200 ft; 135 true 0 ft; 225 true 9 ft' }, 'legs', /leg 2: .*longer than 0/],
    [{ legs: '45 true 200 ft; north; 225 true 9 ft' }, 'legs', /leg 2: write azimuth and distance/],
    [{ legs: '1 true 9 ft; 2 true 9 ft, slope 90 deg; 3 true 9 ft' }, 'legs', /leg 2: a slope is below 90/],
    [{ legs, adjust: 'perhaps' }, 'adjust', /write yes/],
    [{ legs, zone: '17S' }, 'zone', /means nothing/],
    [{}, 'legs', /three legs/],
  ] as const)('%o is refused at its field', (typed, field, remedy) => {
    expect(ask('traverse', typed)).toMatchObject({
      ok: false,
      field,
      remedy: expect.stringMatching(remedy) as unknown,
    });
  });
});

describe('zones', () => {
  test('of a block are those of its middle, with the note on WGS 84', () => {
    const { tables } = sheet('zones', { block: 'North cove' });
    expect(tables[0]?.rows.map(([code]) => code)).toEqual(
      expect.arrayContaining(['EPSG:26917', 'EPSG:32617']),
    );
    expect(tables[1]?.rows.find(([code]) => code === 'EPSG:2264')?.[3]).toContain('1–2 m');
  });

  test('of a place that is typed, with a zone that somebody wrote explained for it', () => {
    // 17 S of the latitude bands lies north of the equator (DMA TM 8358.1, from memory).
    const { lead } = sheet('zones', { point: '35.7121, -81.6834', zone: '17S' });
    expect(lead[0]).toContain('EPSG:32617');
  });

  test.each([
    [{ point: '95, -81' }, 'point', /no latitude/],
    [{ point: 'EPSG:27700 500000, 200000' }, 'point', /OSGB36/],
    [{ point: '10 mag, 30 ft from stake A' }, 'point', /write a fix/],
    [{ block: 'South cove' }, 'block', /./],
    [{ legs: '1' }, 'legs', /means nothing/],
  ] as const)('%o are refused at their field', (typed, field, remedy) => {
    expect(ask('zones', typed)).toMatchObject({
      ok: false,
      field,
      remedy: expect.stringMatching(remedy) as unknown,
    });
  });
});
