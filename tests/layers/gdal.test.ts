/** GDAL as the outside judge of the files, PROJ and published control points as judges of the coordinates. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type Column,
  type Feature,
  fileName,
  geoJsonText,
  type Layer,
  layers,
  type Position,
  toGeoJson,
  type Value,
  viewOf,
} from '../../src/layers/index.ts';
import { fold } from '../../src/stand/index.ts';
import { needs } from '../needs.ts';
import { pen, uuid } from '../stand/entries.ts';
import { ogrinfo } from './ogrinfo.ts';
import { emptyFold, featureOf, layer, pointOf } from './reading.ts';
import { woodlot } from './woodlot.ts';

const view = viewOf(woodlot());
const products = [undefined, 'EPSG:2264', 'EPSG:32617'] as const;
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gapledger-layers-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function exported(of: Layer, crs: string | undefined, seen = view) {
  const { collection } = toGeoJson(of, seen, { head: '40:00', ...(crs === undefined ? {} : { crs }) });
  const file = join(folder, fileName(of, crs));
  writeFileSync(file, geoJsonText(collection, of));
  return { collection, seen: ogrinfo(file) };
}

const gdalTypes = {
  text: 'String',
  number: 'Real',
  integer: 'Integer',
  'yes-no': 'Integer(Boolean)',
  time: 'DateTime',
} as const;

/** The type GDAL must give a column; it calls one without a single value text. */
function gdalType({ name, type }: Column, features: readonly Feature[]): string {
  const values: Value[] = features.map(({ properties }) => properties[name] ?? null);
  return values.every((value) => value === null) ? 'String' : gdalTypes[type];
}

function positionsOf({ geometry }: Feature): readonly Position[] {
  if (geometry.type === 'Point') return [geometry.coordinates];
  return geometry.type === 'LineString' ? geometry.coordinates : geometry.coordinates.flat();
}

describe.skipIf(!needs('ogrinfo'))('GDAL reads', () => {
  describe.each(layers.map((each) => [each.name, each] as const))('%s', (name, of) => {
    test.each(products)('in %s: name, count, geometry type, extent, reference system and fields', (crs) => {
      const { collection, seen } = exported(of, crs);
      const { features } = collection;
      expect(seen.name).toBe(name);
      expect(seen.count).toBe(features.length);
      expect(seen.count).toBeGreaterThan(0);
      expect(seen.geometry).toBe(
        { Point: 'Point', LineString: 'Line String', Polygon: 'Polygon' }[of.geometry],
      );
      expect(seen.srs).toBe(crs ?? 'EPSG:4326');
      expectExtent(seen.extent, features.flatMap(positionsOf));
      const columns = of.columns.map((column) => [column.name, gdalType(column, features)]);
      expect(seen.fields).toEqual({ id: 'String', ...Object.fromEntries(columns) });
      expect(seen.features.map(({ uid }) => uid)).toEqual(features.map(({ id }) => id));
    });

    test('with nothing in it', () => {
      const { seen } = exported(of, undefined, viewOf(emptyFold()));
      expect(seen.count).toBe(0);
    });
  });

  test('times as entered, in UTC, and quantities as text and as numbers', () => {
    const { seen } = exported(layer('stumps'), 'EPSG:2264');
    expect(seen.features.find(({ label }) => label === 'C1')).toMatchObject({
      felled_at: '2026/03/02 14:14:00+00',
      dbh: '14.0 in',
      dbh_cm: '35.56',
      bore_cut: '1',
      wedges: '2',
    });
  });
});

function expectExtent(extent: readonly number[] | undefined, positions: readonly Position[]): void {
  const eastings = positions.map(([x]) => x);
  const northings = positions.map(([, y]) => y);
  const judged = [
    Math.min(...eastings),
    Math.min(...northings),
    Math.max(...eastings),
    Math.max(...northings),
  ];
  expect(extent).toHaveLength(4);
  // ogrinfo prints six decimals.
  for (const [index, value] of judged.entries()) {
    expect(Math.abs((extent?.[index] ?? Number.NaN) - value)).toBeLessThanOrEqual(1e-6);
  }
}

/** A logbook with one stake at a fix. */
function stakeAt(lat: string, lon: string) {
  const write = pen();
  return viewOf(
    fold([write('stake-set', { stake: uuid(0xa9), label: 'K', position: { how: 'fix', lat, lon } })]),
  );
}

describe('published control points come out of the projected layer', () => {
  test.each([
    // NOAA NGS data sheet of mark JV7114, NAD83(2011) State Plane Maryland, 39°00'38.66215" N 77°09'15.14805" W:
    // metres and US survey feet (seen second-hand). EPSG rounds the zone's false easting in feet to 0.001.
    ['EPSG:26985', '39.010739486111', '-77.154207791667', 386_644.192, 149_209.682, 0.001],
    ['EPSG:2248', '39.010739486111', '-77.154207791667', 1_268_515.15, 489_532.1, 0.01],
    // IOGP Publication 373-7-2 (2019), p. 79, Lambert Azimuthal Equal Area (seen second-hand).
    ['EPSG:3035', '50', '5', 3_962_799.45, 2_999_718.85, 0.01],
  ])('%s at %s, %s', (crs, lat, lon, easting, northing, tolerance) => {
    const [x, y] = pointOf(featureOf(stakeAt(lat, lon), 'stakes', 'K', crs));
    expect(Math.abs(x - easting)).toBeLessThanOrEqual(tolerance + 1e-6);
    expect(Math.abs(y - northing)).toBeLessThanOrEqual(tolerance + 1e-6);
  });
});

describe.skipIf(!needs('cs2cs'))('PROJ agrees', () => {
  test.each([
    ['35.7121', '-81.6834'],
    ['36.001234567', '-79.987654321'],
  ])('on a fix at %s, %s in EPSG:2264, to the rounding of a thousandth of a foot', (lat, lon) => {
    // +init: longitude and easting first; NAD83 on both sides, so that PROJ does nothing but project.
    const parameters = ['-f', '%.6f', '+init=epsg:4269', '+to', '+init=epsg:2264'];
    const { stdout } = spawnSync('cs2cs', parameters, { input: `${lon} ${lat}\n`, encoding: 'utf8' });
    const [easting = Number.NaN, northing = Number.NaN] = stdout.trim().split(/\s+/).map(Number);
    const [x, y] = pointOf(featureOf(stakeAt(lat, lon), 'stakes', 'K', 'EPSG:2264'));
    expect(Math.abs(x - easting)).toBeLessThan(0.001);
    expect(Math.abs(y - northing)).toBeLessThan(0.001);
  });
});
