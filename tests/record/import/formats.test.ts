// Formats: the same shapes written by GDAL as shapefile, GeoPackage and KML are read alike; zipped or not; and what a
// library or a program would let through is refused.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { zipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { readSource } from '../../../src/record/import/formats/index.ts';
import { needs } from '../../needs.ts';
import { fixture } from './bringing.ts';

const folder = mkdtempSync(join(tmpdir(), 'gapledger-formats-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const origin = fileURLToPath(
  new URL('../../../fixtures/scbi/SCBI_roads_clipped_to_plot.geojson', import.meta.url),
);
const read = (name: string) => new Uint8Array(readFileSync(join(folder, name)));
const beside = (stem: string) => (ending: string) =>
  existsSync(join(folder, stem + ending)) ? read(stem + ending) : undefined;
const ogr = (name: string, ...words: readonly string[]) =>
  execFileSync('ogr2ogr', [join(folder, name), origin, ...words], { stdio: 'pipe' });
const text = (content: string, name = 'file') =>
  readSource({ name, bytes: new TextEncoder().encode(content) });

const numbers = ({ items }: Awaited<ReturnType<typeof readSource>>) =>
  items.map(({ vertices }) => vertices.map(({ x, y }) => [Number(x), Number(y)]));

describe.skipIf(!needs('ogr2ogr'))('files that GDAL writes', () => {
  it('GDAL’s shapefile, GeoPackage and KML hold what its GeoJSON holds', async () => {
    const wanted = await readSource({
      name: 'roads.geojson',
      bytes: fixture('scbi/SCBI_roads_clipped_to_plot.geojson'),
    });
    ogr('roads.shp');
    ogr('roads.gpkg', '-nlt', 'LINESTRING');
    ogr('roads.kml', '-f', 'KML');
    const parts = Object.fromEntries(
      ['.shp', '.dbf', '.prj', '.shx'].map((ending) => [`r/roads${ending}`, read(`roads${ending}`)]),
    );
    const sources = [
      await readSource({
        name: 'roads.shp',
        bytes: read('roads.shp'),
        beside: beside('roads'),
      }),
      await readSource({ name: 'roads.zip', bytes: zipSync(parts) }),
      await readSource({ name: 'roads.gpkg', bytes: read('roads.gpkg') }),
      await readSource({ name: 'roads.kml', bytes: read('roads.kml') }),
      await readSource({ name: 'roads.kmz', bytes: zipSync({ 'doc.kml': read('roads.kml') }) }),
    ];
    for (const source of sources) {
      expect(source.crs, source.format).toBe('lonlat');
      expect(source.items.length).toBe(wanted.items.length);
      for (const [index, line] of numbers(source).entries())
        for (const [at, [x = 0, y = 0]] of line.entries()) {
          const [east = 0, north = 0] = numbers(wanted)[index]?.[at] ?? [];
          expect(Math.hypot(x - east, y - north), source.format).toBeLessThan(1e-9);
        }
      expect(source.items.map(({ cells }) => cells.ROAD_NAME)).toEqual(
        wanted.items.map(({ cells }) => cells.ROAD_NAME),
      );
    }
  });

  it.each([
    ['EPSG:26917', 'EPSG:26917'],
    ['EPSG:6346', 'EPSG:6346'],
    ['EPSG:32617', 'EPSG:32617'],
    ['EPSG:2283', 'EPSG:2283'],
  ])('the .prj that GDAL writes for %s names that system, by what it computes', async (code, wanted) => {
    const name = `p${code.slice(5)}.shp`;
    ogr(name, '-t_srs', code);
    const source = await readSource({
      name,
      bytes: read(name),
      beside: beside(name.slice(0, -4)),
    });
    expect(source.crs).toBe(wanted);
  });

  it('a .prj on a datum that needs a shift is not taken for one that needs none', async () => {
    ogr('nad27.shp', '-t_srs', 'EPSG:26717');
    const source = await readSource({
      name: 'nad27.shp',
      bytes: read('nad27.shp'),
      beside: beside('nad27'),
    });
    expect(source.crs).toBeUndefined();
  });

  it('a GeoPackage on a projected system names it', async () => {
    ogr('utm.gpkg', '-t_srs', 'EPSG:26917', '-nlt', 'LINESTRING');
    expect((await readSource({ name: 'utm.gpkg', bytes: read('utm.gpkg') })).crs).toBe('EPSG:26917');
  });

  it('a shapefile that was cut off is refused, not taken for a shorter one', async () => {
    ogr('cut.shp');
    const bytes = read('cut.shp');
    await expect(
      readSource({ name: 'cut.shp', bytes: bytes.subarray(0, bytes.length - 20) }),
    ).rejects.toThrow(/cut off/);
  });
});

const bomb = () => zipSync({ 'a.csv': new Uint8Array(250_000_000) }, { level: 9 });

it.each<readonly [what: string, bytes: () => string | Uint8Array, why: RegExp]>([
  [
    'entities that multiply',
    () =>
      `<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;">]><gpx version="1.1"><wpt lat="1" lon="2"><name>&b;</name></wpt></gpx>`,
    /document type/,
  ],
  ['a zip that unpacks to 250 MB', bomb, /unpacks to more than/],
  ['XML that does not end', () => '<gpx><wpt lat="1" lon="2">', /no well-formed XML/],
  [
    'elements nested a thousand deep',
    () => `<gpx>${'<a>'.repeat(1000)}${'</a>'.repeat(1000)}</gpx>`,
    /nested deeper/,
  ],
  ['a waypoint without longitude', () => '<gpx><wpt lat="1"/></gpx>', /no lat or no lon/],
  ['another kind of XML', () => '<html></html>', /neither GPX nor KML/],
  [
    'JSON that is no GeoJSON',
    () => '{"type":"Feature","geometry":{"type":"Point","coordinates":["1",2]},"properties":{}}',
    /no valid GeoJSON/,
  ],
  [
    'a number beyond all numbers',
    () => '{"type":"Point","coordinates":[1e999,2]}',
    /no pair of coordinates|no valid GeoJSON/,
  ],
  ['rows of different lengths', () => 'tag,dbh\n1,2,3\n', /cannot be read as a table/],
  ['a heading twice', () => 'tag,tag\n1,2\n', /two columns/],
  ['NUL characters', () => 'tag,dbh\n1,\0\n', /NUL/],
  [
    'bytes that are no text',
    () => new Uint8Array([0x74, 0x61, 0x67, 0x0a, 0xff, 0xfe, 0x80]),
    /is no UTF-8 text/,
  ],
  ['nothing', () => new Uint8Array(), /is empty/],
  ['a picture', () => new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), /no UTF-8 text/],
])('%s: a clear refusal', async (_what, make, why) => {
  const content = make();
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  await expect(readSource({ name: 'file', bytes })).rejects.toMatchObject({
    name: 'ImportRefusal',
    message: expect.stringMatching(why) as string,
  });
});

it('a mark of the encoding, line ends of any kind and quotes are no part of the values', async () => {
  const { items } = await text('\uFEFF"Tag";"Note"\r\n"A1";"said ""no"""\r\n');
  expect(items.map(({ cells }) => cells)).toEqual([{ Tag: 'A1', Note: 'said "no"' }]);
  const utf16 = new Uint8Array([0xff, 0xfe, ...Buffer.from('Tag\nA1\n', 'utf16le')]);
  expect((await readSource({ name: 'a.csv', bytes: utf16 })).items.length).toBe(1);
});

it('a GeoJSON of the older form may name its system', async () => {
  const point = (crs: string) =>
    `{"type":"Feature","crs":{"type":"name","properties":{"name":"${crs}"}},"geometry":{"type":"Point","coordinates":[747383.6,4308503.8]},"properties":{}}`;
  expect((await text(point('urn:ogc:def:crs:EPSG::26917'))).crs).toBe('EPSG:26917');
  expect((await text(point('urn:ogc:def:crs:OGC:1.3:CRS84'))).crs).toBe('lonlat');
});
