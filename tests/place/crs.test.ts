import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  crs,
  distanceAndAzimuth,
  listCrs,
  nearestZones,
  PlaceError,
  project,
  unproject,
  whyNotCrs,
} from '../../src/place/index.ts';

const systems = listCrs();

describe('the shipped reference systems', () => {
  test('are found however their code is written', () => {
    expect(crs('EPSG:2264')?.name).toBe('NAD83 / North Carolina (ftUS)');
    expect(crs('2264')).toEqual(crs('EPSG:2264'));
    expect(crs('epsg:2264')).toEqual(crs('EPSG:2264'));
    expect(crs('')).toBeUndefined();
  });

  test('cover all 120 UTM zones and the State Plane of every state', () => {
    const names = systems.map(({ name }) => name);
    expect(names.filter((name) => /^WGS 84 \/ UTM zone \d+[NS]$/.test(name))).toHaveLength(120);
    const states = new Set(
      systems
        .filter(({ kind, datum }) => kind === 'State Plane' && datum === 'NAD83')
        .map(({ name }) => /^NAD83 \/ ((?:New |North |South |West |Rhode |Puerto )?\w+)/.exec(name)?.[1]),
    );
    // Fifty states and Puerto Rico with the Virgin Islands.
    expect(states.size).toBe(51);
  });

  test('say their unit as their name does', () => {
    for (const { name, unit } of systems) {
      if (name.includes('(ftUS)')) expect(unit, name).toBe('us-ft');
      else if (name.includes('(ft)')) expect(unit, name).toBe('ft');
      else expect(unit, name).toBe('m');
    }
  });

  test('are on datums that need no shift, and say how far fixes may stand off', () => {
    const datums = new Set(systems.map(({ datum }) => datum));
    expect(datums).toEqual(
      new Set(['WGS 84', 'NAD83', 'NAD83(2011)', 'ETRS89', 'RGF93 v1', 'SWEREF99', 'NZGD2000', 'GDA2020']),
    );
    expect(crs('EPSG:2264')?.note).toContain('1–2 m');
  });

  test('a code that is refused is never also shipped', () => {
    for (const { code } of systems) expect(whyNotCrs(code)).toMatch(/not among the reference systems/);
  });

  test('using one that is not shipped is an error that names field, value and remedy', () => {
    expect(() => project('EPSG:27700', { lat: 52, lon: 0 })).toThrow(PlaceError);
    expect(() => unproject('EPSG:27700', { x: 1, y: 1 })).toThrow(/EPSG:27700 .*Convert the coordinates/);
    expect(() => project('EPSG:2264', { lat: Number.NaN, lon: 0 })).toThrow(/latitude from -90 to 90/);
    expect(() => unproject('EPSG:2264', { x: Number.NaN, y: 0 })).toThrow(/easting first/);
  });
});

test('every shipped system goes there and back within a millimetre', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.constantFrom(...systems), share, share, ({ code, bounds }, along, up) => {
      const width = (bounds.east - bounds.west + 360) % 360;
      const lon = ((bounds.west + along * width + 540) % 360) - 180;
      const at = { lon, lat: bounds.south + up * (bounds.north - bounds.south) };
      expect(distanceAndAzimuth(unproject(code, project(code, at)), at).metres, code).toBeLessThan(0.001);
    }),
    { numRuns: 3000 },
  );
});

describe('the zones proposed for a place', () => {
  test('are its UTM zone and the State Plane zones round it', () => {
    const { utm, statePlane } = nearestZones({ lat: 35.75, lon: -81.5 });
    expect(utm.map(({ code }) => code)).toEqual(expect.arrayContaining(['EPSG:26917', 'EPSG:32617']));
    expect(utm.every(({ name }) => /zone 17N?$/.test(name))).toBe(true);
    expect(statePlane.map(({ code }) => code)).toContain('EPSG:2264');
  });

  test('follow the exception for western Norway', () => {
    const { utm, statePlane } = nearestZones({ lat: 60.4, lon: 5.3 });
    expect(utm.map(({ code }) => code)).toContain('EPSG:25832');
    expect(utm.map(({ code }) => code)).not.toContain('EPSG:25831');
    expect(statePlane).toEqual([]);
  });

  test('name the southern zone in the south', () => {
    expect(nearestZones({ lat: -37, lon: 146 }).utm.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['EPSG:32755', 'EPSG:7855']),
    );
  });
});
