/** The area of an opening: by its walked edge, by the hull of its stumps, or not at all. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { isUnresolved } from '../../src/place/index.ts';
import { fold, locate, type OpeningArea, openingArea } from '../../src/stand/index.ts';
import { needs } from '../needs.ts';
import { uuid } from '../stand/entries.ts';
import { entries, grid, id, square, walkedSide, woodlot } from './woodlot.ts';

/** Square metres in one square US survey foot: (1200/3937)², Federal Register 1959. */
const surveyFoot2 = (1200 / 3937) ** 2;

function areaOf(group: string, folded = woodlot()) {
  const found = folded.stand.groups.get(group);
  if (found === undefined) throw new Error('no such group');
  return openingArea(found, folded, locate(folded.stand));
}

function known(answer: ReturnType<typeof openingArea>): OpeningArea {
  if (isUnresolved(answer)) throw new Error(answer.why);
  return answer;
}

describe('a walked edge', () => {
  const area = known(areaOf(id.walked));

  test('bounds the area: 200 by 200 US survey feet of grid are 40,000 square feet, 0.918 ac', () => {
    expect(area.method).toBe('walked edge');
    expect(area.crs).toBe('EPSG:2264');
    expect(area.planar.m2).toBeCloseTo(walkedSide ** 2 * surveyFoot2, 4);
    // 1 ac = 43,560 ft² = 4046.8564224 m² exactly, by the international foot.
    expect(area.planar.ac).toBeCloseTo((walkedSide ** 2 * surveyFoot2) / 4046.8564224, 8);
    expect(area.planar.ha).toBeCloseTo(area.planar.m2 / 10_000, 12);
    expect(area.planar.ac).toBeCloseTo(0.918, 3);
  });

  test('shows how far the grid is from the ellipsoid, which in a State Plane zone is under 0.03 %', () => {
    // State Plane zones are laid out for a scale within 1/10,000, so areas within 2/10,000 (NOAA Manual NOS NGS 5, from memory).
    expect(Math.abs(area.differencePercent)).toBeLessThan(0.03);
    expect(area.planar.m2).not.toBe(area.geodesic.m2);
    expect(area.differencePercent).toBeCloseTo((area.planar.m2 / area.geodesic.m2 - 1) * 100, 9);
  });

  test('names the entry it rests on, and counts its corners', () => {
    expect(area.basis).toMatch(/^walked edge, 4 corners/);
    expect(area.entries).toHaveLength(1);
  });

  test('stands although a later closing brought no edge', () => {
    const again = woodlot([
      ['opening-reopened', { group: id.walked, reason: 'more to do' }],
      ['opening-closed', { group: id.walked }],
    ]);
    expect(known(areaOf(id.walked, again)).method).toBe('walked edge');
    expect(known(areaOf(id.walked, again)).remarks).toEqual([]);
  });

  test('is said to be old when a stem of the group fell after it was walked', () => {
    const later = woodlot([['stem-felled', { stem: id.leave, came: 'down' }]]);
    expect(known(areaOf(id.walked, later)).remarks.join()).toMatch(/before 1 stem of the group fell/);
  });

  test('with a corner that cannot be placed gives no area, and no hull in its stead', () => {
    const corners = [...square(0, 0, 200).slice(0, 3), offsetFromB];
    const answer = areaOf(id.walked, woodlot([['opening-closed', { group: id.walked, edge: corners }]]));
    expect(answer).toMatchObject({
      why: expect.stringMatching(/^not enough data: 1 of the 4 corners/) as string,
    });
  });

  test('that crosses itself gives no area', () => {
    const bowTie = [grid(0, 0), grid(100, 100), grid(100, 0), grid(0, 100)];
    const answer = areaOf(id.walked, woodlot([['opening-closed', { group: id.walked, edge: bowTie }]]));
    expect(answer).toMatchObject({
      why: expect.stringMatching(/^not enough data: the walked edge.*crosses/) as string,
    });
  });
});

/** Stake B of the test logbook has no position. */
const offsetFromB = {
  how: 'offset',
  from: { stake: id.stakeB },
  azimuth: { text: '90 true', value: '90', reference: 'true' },
  distance: { text: '20 ft', value: '20', unit: 'ft' },
};

describe('no walked edge', () => {
  test('the hull of the stumps: a right triangle of 100 by 60 survey feet has 3,000 square feet', () => {
    const area = known(areaOf(id.unwalked));
    expect(area.method).toBe('hull of stumps');
    expect(area.basis).toBe('hull of 4 stumps');
    expect(area.shape.points).toHaveLength(3);
    expect(area.planar.m2).toBeCloseTo(3000 * surveyFoot2, 4);
    expect(area.remarks.join()).toMatch(/hull joins the outermost stumps/);
  });

  test('stumps without a position are counted', () => {
    const more = woodlot([['stem-felled', { stem: uuid(0x599), came: 'down', group: id.unwalked }]]);
    expect(known(areaOf(id.unwalked, more)).basis).toBe('hull of 4 of 5 stumps');
  });

  test('stumps in one line bound no area', () => {
    const inLine = [0, 50, 100].flatMap((east, number) => [
      [
        'stem-felled',
        { stem: uuid(0x59a + number), came: 'down', group: id.uncut, position: grid(east, 0) },
      ] as const,
    ]);
    expect(areaOf(id.uncut, woodlot(inLine))).toMatchObject({
      why: expect.stringMatching(/^not enough data: the hull of stumps bounds no area/) as string,
    });
  });

  test('fewer than three stumps bound nothing, and it is said how many there are', () => {
    const few = woodlot([['stem-felled', { stem: id.nowhere, came: 'down' }]]);
    expect(areaOf(id.uncut, few)).toMatchObject({
      why: expect.stringMatching(/^not enough data: no edge was walked.*0 of 1 have one/) as string,
    });
  });
});

test('without a working CRS there is no planar area, never one from degrees', () => {
  const folded = fold(entries().slice(1));
  expect(areaOf(id.walked, folded)).toMatchObject({
    why: expect.stringMatching(/names no working CRS/) as string,
  });
});

test('web Mercator as the working CRS is refused', () => {
  const log = entries();
  const opened = { ...log[0], body: { ...log[0]?.body, crs: 'EPSG:3857' } } as (typeof log)[number];
  expect(areaOf(id.walked, fold([opened, ...log.slice(1)]))).toMatchObject({
    why: expect.stringMatching(/web Mercator/) as string,
  });
});

describe.skipIf(!needs('proj'))('PROJ agrees on the scale of the grid', () => {
  test('the area of the opening is off by the areal scale of EPSG:2264 there', () => {
    const area = known(areaOf(id.walked));
    const corner = area.shape.points[0] ?? { lon: Number.NaN, lat: Number.NaN };
    // EPSG's parameters of the zone; proj -V prints the areal scale with 8 decimals.
    const zone =
      '+proj=lcc +lat_0=33.75 +lon_0=-79 +lat_1=36.1666666666667 +lat_2=34.3333333333333 +ellps=GRS80';
    const { stdout } = spawnSync('proj', ['-V', ...zone.split(' ')], {
      input: `${corner.lon} ${corner.lat}\n`,
      encoding: 'utf8',
    });
    const scale = Number(/Areal scale \(s\):\s*([\d.]+)/.exec(stdout)?.[1]);
    expect(Math.abs(area.differencePercent - (scale - 1) * 100)).toBeLessThan(1e-4);
  });
});
