// 20,000 files that are broken, odd or hostile: each is read or refused in a sentence, never anything else, and nothing of
// them is recorded. Half are real files with pieces cut, doubled, exchanged or overwritten; half are made up.
import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { readSource } from '../../../src/record/import/formats/index.ts';
import { ImportRefusal } from '../../../src/record/import/index.ts';
import { emptyWoods } from '../woods.ts';
import { fixture, plan } from './bringing.ts';

const encode = (text: string) => new TextEncoder().encode(text);
const kml = `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark><name>A</name><Polygon><outerBoundaryIs><LinearRing><coordinates>-81.69,35.71,0 -81.68,35.71,0 -81.68,35.72,0 -81.69,35.71,0</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark></Document></kml>`;
const table = 'Tag,Species,DBH (in),Mark,Lat,Lon,Date\nC1,white oak,14.2,cut,35.7125,-81.685,2026-03-02\n';

/** A shapefile of one point, and its table. */
function shapefile(): Uint8Array {
  const bytes = new Uint8Array(128);
  const view = new DataView(bytes.buffer);
  view.setInt32(0, 9994);
  view.setInt32(24, 64);
  view.setInt32(28, 1000, true);
  view.setInt32(32, 1, true);
  view.setInt32(100, 1);
  view.setInt32(104, 10);
  view.setInt32(108, 1, true);
  view.setFloat64(112, -81.685, true);
  view.setFloat64(120, 35.7125, true);
  return bytes;
}

/** A GeoPackage with one point, as far as a reader looks at it. */
function geoPackage(): Uint8Array {
  const database = new Sqlite(':memory:');
  database.exec(`
    CREATE TABLE gpkg_contents (table_name TEXT, data_type TEXT);
    CREATE TABLE gpkg_geometry_columns (table_name TEXT, column_name TEXT, srs_id INTEGER);
    CREATE TABLE gpkg_spatial_ref_sys (srs_id INTEGER, organization TEXT, organization_coordsys_id INTEGER);
    CREATE TABLE trees (id INTEGER PRIMARY KEY, geom BLOB, tag TEXT);
    INSERT INTO gpkg_contents VALUES ('trees', 'features');
    INSERT INTO gpkg_geometry_columns VALUES ('trees', 'geom', 4326);
    INSERT INTO gpkg_spatial_ref_sys VALUES (4326, 'EPSG', 4326);`);
  const geometry = Buffer.concat([Buffer.from('47500001E61000000101000000', 'hex'), Buffer.alloc(16)]);
  database.prepare("INSERT INTO trees VALUES (1, ?, 'A1')").run(geometry);
  const bytes = new Uint8Array(database.serialize());
  database.close();
  return bytes;
}

const seeds: readonly Uint8Array[] = [
  fixture('gpx/gpx1.1_with_all_fields.gpx'),
  fixture('gpx/unicode_with_bom.gpx'),
  fixture('gpx/track_with_dilution_errors.gpx'),
  fixture('scbi/ForestGEO_grid_outline.geojson'),
  fixture('scbi/utm_plot_corners.csv'),
  encode(kml),
  encode(table),
  shapefile(),
  geoPackage(),
  zipSync({ 'doc.kml': encode(kml) }),
  zipSync({ 'a.shp': shapefile() }),
];

/** Bytes that parsers stumble over, put in anywhere. */
const pieces = [
  '\0',
  '\uFEFF',
  '\r',
  '\r\n',
  '"',
  "'",
  '<',
  '>',
  '&',
  '&a;',
  '<!DOCTYPE a [<!ENTITY a "b">]>',
  '<![CDATA[',
  'NaN',
  'Infinity',
  '-1e308',
  '1e999',
  '9'.repeat(400),
  ',',
  ';',
  '\t',
  '{',
  '[',
  'null',
  'PK',
  '\uD83D',
  '../../x',
  '__proto__',
  '-999',
  '0',
].map(encode);

const mutation = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 0, max: 40 }),
  piece: fc.oneof(fc.constantFrom(...pieces), fc.uint8Array({ maxLength: 8 })),
  how: fc.constantFrom('insert', 'overwrite', 'cut', 'double', 'end'),
});

function mutated(
  bytes: Uint8Array,
  { at, length, piece, how }: { at: number; length: number; piece: Uint8Array; how: string },
): Uint8Array {
  const place = Math.floor(at * bytes.length);
  const [before, after] = [bytes.subarray(0, place), bytes.subarray(place)];
  const join = (...parts: readonly Uint8Array[]) => Uint8Array.from(Buffer.concat(parts));
  switch (how) {
    case 'insert':
      return join(before, piece, after);
    case 'overwrite':
      return join(before, piece, after.subarray(piece.length));
    case 'cut':
      return join(before, after.subarray(length));
    case 'double':
      return join(before, after.subarray(0, length), after);
    default:
      return join(before);
  }
}

const broken = fc
  .tuple(fc.constantFrom(...seeds), fc.array(mutation, { minLength: 1, maxLength: 4 }))
  .map(([seed, mutations]) => mutations.reduce(mutated, seed));

const number = fc.oneof(
  fc.double(),
  fc.constantFrom('NaN', '', 'Infinity', '1e400', '-999', '0', '1,5', '3542.750', 'x'),
  fc.maxSafeInteger(),
);
const made = fc.oneof(
  fc.uint8Array({ maxLength: 400 }),
  fc.string({ maxLength: 200, unit: 'binary' }).map(encode),
  fc.json({ maxDepth: 5 }).map(encode),
  fc
    .array(fc.tuple(number, number), { maxLength: 8 })
    .map((points) =>
      encode(
        `<gpx version="1.1">${points.map(([lat, lon]) => `<wpt lat="${lat}" lon="${lon}"/>`).join('')}</gpx>`,
      ),
    ),
  fc
    .array(fc.tuple(number, number), { maxLength: 8 })
    .map((points) => encode(JSON.stringify({ type: 'MultiPoint', coordinates: points }))),
  fc
    .array(fc.tuple(fc.string(), number, number), { maxLength: 8 })
    .map((rows) => encode(`Tag,Lat,Lon\n${rows.map((row) => row.join(',')).join('\n')}`)),
  fc
    // A name that every object has would trip the zipper itself, not what is tested.
    .dictionary(
      fc.string({ minLength: 1, maxLength: 12 }).filter((name) => !(name in Object.prototype)),
      fc.uint8Array({ maxLength: 200 }),
      { maxKeys: 4 },
    )
    .map((members) => zipSync(members)),
);

/** Read, or refused in a sentence that says what to do. */
async function isReadOrRefused(bytes: Uint8Array): Promise<boolean> {
  try {
    const { items } = await readSource({ name: 'file', bytes });
    return items.length <= 200_000;
  } catch (error) {
    if (!(error instanceof ImportRefusal)) throw error;
    return error.message.length > 10 && error.message.length < 1500;
  }
}

it('the seeds themselves are read', async () => {
  for (const bytes of seeds)
    expect((await readSource({ name: 'seed', bytes })).items.length).toBeGreaterThan(0);
});

it('20,000 broken, odd and hostile files are read or refused, and memory stays bounded', async () => {
  const before = process.memoryUsage().rss;
  await fc.assert(fc.asyncProperty(broken, isReadOrRefused), { numRuns: 12_000 });
  await fc.assert(fc.asyncProperty(made, isReadOrRefused), { numRuns: 8000 });
  // 400 MB: the largest file that is taken in, unpacked, and its things would be of that order.
  expect(process.memoryUsage().rss - before).toBeLessThan(400_000_000);
}, 240_000);

it('a broken file that can still be read is planned or refused, and planning records nothing', async () => {
  const here = await emptyWoods();
  const before = await here.size();
  const typed = fc.record({
    as: fc.constantFrom('stems', 'stakes', 'notes', 'boundary', 'features', undefined),
    crs: fc.constantFrom(undefined, 'lonlat', 'EPSG:2264'),
    answers: fc.subarray([
      'mark=cut',
      'no-date=now',
      'unreadable=leave-out',
      'packed-degrees=unpack',
      'axis-order=swap',
    ]),
  });
  await fc.assert(
    fc.asyncProperty(fc.oneof(broken, made), typed, async (bytes, asked) => {
      try {
        const { entries, doubts } = await plan(here, 'file', bytes, asked);
        return entries.length >= 0 && doubts.every(({ sentence }) => sentence.length > 10);
      } catch (error) {
        if (!(error instanceof ImportRefusal)) throw error;
        return true;
      }
    }),
    { numRuns: 2000 },
  );
  expect(await here.size()).toBe(before);
}, 240_000);
