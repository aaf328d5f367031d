// The field page gets fewer files of the libraries and its tables column by column. Held against the whole libraries
// and tables: every shipped reference system and species must come out the same.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import proj4 from 'proj4';
import { build } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { leanLibraries } from '../../cli/build-field.mjs';
import { root } from '../../cli/prepare.mjs';
import type * as Events from '../../src/events/index.ts';
import { kinds, kindTypes, parseBody } from '../../src/events/index.ts';
import species from '../../src/events/species.gen.json' with { type: 'json' };
import systems from '../../src/place/crs.gen.json' with { type: 'json' };
import type * as Place from '../../src/place/index.ts';

type Lean = Pick<typeof Place, 'project' | 'listCrs' | 'whyNotCrs'> &
  Pick<typeof Events, 'parseBody'> & { species: typeof species };

// Inside node_modules, so that packages are found and git sees none of it.
mkdirSync(join(root, 'node_modules/.cache'), { recursive: true });
const folder = mkdtempSync(join(root, 'node_modules/.cache/lean-'));
let lean: Lean;

beforeAll(async () => {
  const entry = join(folder, 'entry.ts');
  const from = (path: string) => JSON.stringify(join(root, path));
  writeFileSync(
    entry,
    `export { listCrs, project, whyNotCrs } from ${from('src/place/index.ts')};
     export { parseBody } from ${from('src/events/index.ts')};
     export { default as species } from ${from('src/events/species.gen.json')};`,
  );
  await build({
    configFile: false,
    root: folder,
    logLevel: 'error',
    plugins: [leanLibraries()],
    json: { stringify: true },
    build: { outDir: join(folder, 'dist'), lib: { entry, formats: ['es'], fileName: 'lean' } },
  });
  lean = (await import(join(folder, 'dist/lean.js'))) as Lean;
});
afterAll(() => rmSync(folder, { recursive: true }));

test('every shipped reference system projects as the whole library does', () => {
  expect(lean.listCrs()).toHaveLength(systems.systems.length);
  for (const { code, bounds, proj4: definition } of systems.systems) {
    const [west = 0, south = 0, east = 0, north = 0] = bounds;
    const at = { lon: west > east ? west + 2 : (west + east) / 2, lat: (south + north) / 2 };
    const [easting = 0, northing = 0] = proj4(definition).forward([at.lon, at.lat]);
    const point = lean.project(code, at);
    expect(Math.hypot(point.x - easting, point.y - northing), code).toBeLessThan(1e-6);
  }
});

test('the species are the same, row by row', () => {
  expect(lean.species.rows).toEqual(species.rows);
});

test('what is entered is read and refused as by the whole library of schemas, kind by kind', () => {
  const bodies = [
    {},
    { stem: 'A12', value: 'much', steps: [{}], label: '', reason: 5, nonsense: true },
    { stem: '01970000-0000-7000-8000-000000000001', came: 'down', lay: { text: '400', value: '400' } },
    { label: 'G1', group: '01970000-0000-7000-8000-000000000001', text: 'x', sapling: 's1' },
  ];
  for (const type of kindTypes)
    for (const body of bodies)
      expect(lean.parseBody(type, kinds[type].v, body), type).toEqual(parseBody(type, kinds[type].v, body));
});

test('a reference system that is not shipped is refused with what to do instead', () => {
  expect(lean.whyNotCrs('EPSG:4267')).toMatch(/WGS 84/);
});
