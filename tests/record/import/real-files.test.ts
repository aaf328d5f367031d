// Files that exist: GPX of hikes and of odd receivers (gpxpy's test files), and the SCBI forest plot with its census, corner
// table, outline, streams, roads, fence, and its published coordinates that are known to be wrong. Credit: LICENCE.txt there.
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { geodesicArea } from '../../../src/place/index.ts';
import { readSource } from '../../../src/record/import/formats/index.ts';
import { commitImport } from '../../../src/record/import/index.ts';
import { readStand } from '../../../src/record/index.ts';
import { locate } from '../../../src/stand/index.ts';
import { emptyWoods } from '../woods.ts';
import { bringIn, codes, fixture, plan } from './bringing.ts';

const gpx = readdirSync(fileURLToPath(new URL('../../../fixtures/gpx', import.meta.url))).filter((name) =>
  name.endsWith('.gpx'),
);

it.each(gpx)('%s is read whole: as many points as there are elements for them', async (name) => {
  const bytes = fixture(`gpx/${name}`);
  const { items, format } = await readSource({ name, bytes });
  const elements = new TextDecoder().decode(bytes).match(/<(?:wpt|trkpt|rtept)[\s>]/g)?.length ?? 0;
  expect(format).toMatch(/^GPX/);
  expect(items.reduce((sum, { vertices }) => sum + vertices.length, 0)).toBe(elements);
});

it('waypoints of a GPX file become stakes with the fix, its time and the receiver’s text of the numbers', async () => {
  const here = await emptyWoods('metric');
  const made = await plan(here, 'w.gpx', fixture('gpx/cerknicko-jezero.gpx'), {
    as: 'stakes',
    answers: ['no-date=now'],
  });
  expect(codes(made)).toEqual([]);
  const first = made.entries[1];
  expect(first?.type).toBe('stake-set');
  const text = new TextDecoder().decode(fixture('gpx/cerknicko-jezero.gpx'));
  const { lat, lon } = (first?.body.position ?? {}) as { lat: string; lon: string };
  expect(text).toContain(`lat="${lat}"`);
  expect(text).toContain(`lon="${lon}"`);
  expect(made.passedOver.join()).toMatch(/another shape/);
});

it('a track becomes the walked edge of an opening', async () => {
  const here = await emptyWoods('metric');
  await here.record('group-laid-out', { label: 'G1' });
  const made = await plan(here, 'edge.gpx', fixture('gpx/Mojstrovka.gpx'), { as: 'edge', set: ['group=G1'] });
  expect(codes(made)).toEqual([]);
  await commitImport(here.desk, made);
  expect(made.entries[1]?.body).toMatchObject({ method: 'walked-edge' });
});

it('a file whose name has letters of many scripts keeps them', async () => {
  const { items } = await readSource({ name: 'u.gpx', bytes: fixture('gpx/unicode.gpx') });
  expect(items.map(({ cells }) => cells.name).join('')).toMatch(
    /\p{Script=Cyrillic}|\p{Script=Han}|\p{Script=Hiragana}|š|č|ž/u,
  );
});

const plot = { zone: 'EPSG:26917', at: '2013-10-01' } as const;

it('the 2013 census of the SCBI window goes in with its mapping: 407 live stems, sizes in millimetres', async () => {
  const here = await emptyWoods();
  const made = await plan(here, 'census.csv', fixture('scbi/stems_60x80m_2013.csv'), {
    only: ['status=alive'],
    columns: ['tag=tag+stemTag'],
    set: ['mark=leave'],
    crs: plot.zone,
    at: plot.at,
    ownList: 'scbi',
    map: 'scbi census',
    answers: ['species=own-list', 'identical-positions=as-written', 'sentinel-dbh=leave-out'],
  });
  expect(codes(made)).toEqual([]);
  await commitImport(here.desk, made);
  const { stand } = await readStand(here.log);
  expect(stand.stems.size).toBe(407);
  const stem = [...stand.stems.values()].find(({ tag }) => tag === '131140-1');
  expect(stem?.dbh?.unit).toBe('mm');
  expect(stem?.species).toMatchObject({ list: 'scbi', code: 'caca' });
});

it('the published coordinates of 2008, all in one quadrat, are questioned', async () => {
  const here = await emptyWoods();
  const made = await plan(here, 'bad.csv', fixture('scbi/KNOWN_BAD_utm_400rows.csv'), {
    set: ['mark=leave'],
    crs: plot.zone,
    at: '2008-10-01',
    answers: ['species=own-list'],
  });
  expect(codes(made)).toEqual(['identical-positions', 'crowded']);
});

it('the corner table becomes stakes, and "17S" in its headings is no southern zone', async () => {
  const here = await emptyWoods();
  await bringIn(here, 'corners.csv', fixture('scbi/utm_plot_corners.csv'), {
    as: 'stakes',
    columns: ['label=Point', 'x=UTM Zone 17S Easting', 'y=UTM Zone 17S Northing'],
    crs: plot.zone,
    at: plot.at,
  });
  const { stand } = await readStand(here.log);
  expect(stand.stakes.size).toBe(9);
  const southWest = [...stand.stakes.values()].find(({ label }) => label.startsWith('SW'));
  expect(southWest?.position?.entered).toEqual({
    how: 'grid',
    crs: plot.zone,
    easting: '747383.614',
    northing: '4308503.857',
  });
});

it('the outline becomes the boundary of a block of 25.6 ha; streams, roads and the fence become features', async () => {
  const here = await emptyWoods();
  const typed = { at: plot.at };
  await bringIn(here, 'outline.geojson', fixture('scbi/ForestGEO_grid_outline.geojson'), {
    ...typed,
    as: 'boundary',
    set: ['name=SCBI plot'],
    answers: ['boundary-from=map'],
  });
  const features = { ...typed, as: 'features' };
  await bringIn(here, 'streams.geojson', fixture('scbi/SCBI_streams_clipped_to_plot.geojson'), {
    ...features,
    set: ['what=stream'],
  });
  await bringIn(here, 'roads.geojson', fixture('scbi/SCBI_roads_clipped_to_plot.geojson'), {
    ...features,
    columns: ['label=ROAD_NAME'],
    set: ['what=road'],
  });
  await bringIn(here, 'fence.geojson', fixture('scbi/deer_exclosure_2011.geojson'), {
    ...features,
    set: ['what=structure', 'label=deer exclosure'],
  });
  const { stand } = await readStand(here.log);
  const [block] = stand.blocks.values();
  const { ring } = locate(stand).ring(block?.boundary ?? [], '');
  // The plot measures 400 × 640 m (Bourg et al. 2013).
  expect(geodesicArea(ring) / 10_000).toBeCloseTo(25.6, 0);
  const kinds = [...stand.features.values()].map(({ body }) => body?.what);
  expect(new Set(kinds)).toEqual(new Set(['stream', 'road', 'structure']));
});
