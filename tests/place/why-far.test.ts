// Coordinates that lie far from the woods: the slip behind them is found by undoing it.
import { describe, expect, test } from 'vitest';
import {
  destination,
  isUnresolved,
  type LonLat,
  type PositionContext,
  type PositionEntered,
  project,
  resolvePosition,
  whyFar,
} from '../../src/place/index.ts';

/** A stem in a block of North Carolina, 200 m on a side. */
const stem: LonLat = { lat: 35.7121, lon: -81.6834 };
const block = [45, 135, 225, 315].map((azimuth) => destination(stem, azimuth, 141));

const context: PositionContext = {
  anchor: () => ({ at: stem, standardError: 1, via: 'survey' }),
  nameOf: () => 'stake A',
  axes: () => ({
    origin: { at: stem, standardError: 1, via: 'survey' },
    yAzimuthTrue: 0,
    azimuthDegrees: 0.25,
  }),
  when: '2026-03-04T15:00:00Z',
};

function meant(entered: PositionEntered, near = [block]) {
  const resolve = (position: PositionEntered) => resolvePosition(position, context);
  return whyFar(entered, { near, metres: 300, resolve });
}

const fix = (lat: string, lon: string): PositionEntered => ({ how: 'fix', lat, lon });
const grid = (crs: string, easting: number, northing: number): PositionEntered => ({
  how: 'grid',
  crs,
  easting: String(easting),
  northing: String(northing),
});
const metres = (value: string) => ({ text: `${value} m`, value, unit: 'm' });

describe('a fix', () => {
  test.each([
    ['-81.6834', '35.7121', 'axes', '35.7121, -81.6834'],
    ['81.6834', '35.7121', 'axes', '35.7121, -81.6834'],
    ['35.7121', '81.6834', 'sign', '35.7121, -81.6834'],
    ['-35.7121', '-81.6834', 'sign', '35.7121, -81.6834'],
    // 35° 42.726' N, 81° 41.004' W.
    ['35.42726', '-81.41004', 'packed', '35.712100, -81.683400'],
    ['35.42726', '81.41004', 'packed', '35.712100, -81.683400'],
    // 35° 42' 43.56" N, 81° 41' 00.24" W.
    ['35.424356', '-81.410024', 'packed', '35.712100, -81.683400'],
  ] as const)('%s, %s: %s; write %s', (lat, lon, cause, text) => {
    expect(meant(fix(lat, lon))[0]).toMatchObject({ cause, text });
  });

  test('that is simply elsewhere has no explanation', () => {
    expect(meant(fix('44.0', '-72.0'))).toEqual([]);
  });

  test('on an older datum is recognized: 87 m between OSGB36 and WGS 84 in London, and more in longitude', () => {
    // Greenwich: the transit circle, longitude 0 on the old meridian, is at 0° 0' 5.3" W on WGS 84 (well known, from memory).
    const greenwich: LonLat = { lat: 51.47787, lon: -0.00147 };
    const found = meant(fix('51.47737', '0.00013'), [[greenwich]]);
    expect(found.map(({ cause }) => cause)).toContain('datum');
  });
});

describe('coordinates of a grid', () => {
  const utm = project('EPSG:26917', stem);
  const feet = project('EPSG:2264', stem);

  test('exchanged', () => {
    expect(meant(grid('EPSG:26917', utm.y, utm.x))[0]).toMatchObject({
      cause: 'axes',
      text: `EPSG:26917 ${utm.x}, ${utm.y}`,
    });
  });

  test('in feet given to the zone in metres, and in metres given to the zone in feet', () => {
    const inMetres = project('EPSG:32119', stem);
    expect(meant(grid('EPSG:32119', feet.x, feet.y))[0]).toMatchObject({
      cause: 'unit',
      words: expect.stringMatching(/in US survey feet and EPSG:32119 is in metres/) as unknown,
    });
    expect(meant(grid('EPSG:2264', inMetres.x, inMetres.y))[0]?.cause).toBe('unit');
  });

  test('of the neighbouring UTM zone', () => {
    expect(meant(grid('EPSG:26918', utm.x, utm.y))[0]).toMatchObject({
      cause: 'zone',
      text: `EPSG:26917 ${utm.x}, ${utm.y}`,
    });
  });

  test('of the other hemisphere: 10,000,000 m of northing between them', () => {
    expect(meant(grid('EPSG:32717', utm.x, utm.y))[0]?.cause).toBe('zone');
  });

  test('of another State Plane zone', () => {
    expect(meant(grid('EPSG:2273', feet.x, feet.y)).map(({ cause }) => cause)).toContain('zone');
  });

  test('that are latitude and longitude', () => {
    expect(meant(grid('EPSG:26917', 35.7121, -81.6834))[0]).toMatchObject({
      cause: 'degrees',
      text: '35.7121, -81.6834',
    });
    expect(meant(grid('EPSG:26917', -81.6834, 35.7121))[0]?.text).toBe('35.7121, -81.6834');
  });

  test('on NAD27, some 200 m off in northing', () => {
    // Between NAD27 and WGS 84 the same house was 197 m apart in UTM (a user's account of a map datum mix).
    expect(meant(grid('EPSG:26917', utm.x - 17, utm.y - 205), [[stem]]).map(({ cause }) => cause)).toContain(
      'datum',
    );
  });
});

describe('what was taped', () => {
  test('in metres instead of feet', () => {
    const entered: PositionEntered = {
      how: 'offset',
      from: { stake: 'A' },
      azimuth: { text: '90 true', value: '90', reference: 'true' },
      distance: metres('600'),
    };
    expect(meant(entered)[0]).toMatchObject({ cause: 'unit', words: 'the distance is in ft' });
  });

  test('from the far end: the azimuth is the one back', () => {
    const entered: PositionEntered = {
      how: 'offset',
      from: { stake: 'A' },
      azimuth: { text: '90 true', value: '90', reference: 'true' },
      distance: metres('1000'),
    };
    const there = destination(stem, 270, 1000);
    expect(meant(entered, [[there]]).map(({ cause }) => cause)).toContain('direction');
  });

  test('with x and y exchanged', () => {
    const entered: PositionEntered = { how: 'local', block: 'north', x: metres('20'), y: metres('900') };
    expect(isUnresolved(resolvePosition(entered, context))).toBe(false);
    expect(meant(entered, [[destination(stem, 90, 900)]])[0]?.cause).toBe('axes');
  });
});
