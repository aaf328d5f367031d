/**
 * A real stand the whole way through the built command line: the 2013 census of a window of the SCBI plot, a harvest in
 * it that never took place, layers, report, proof. Facts are checked against the census file itself and by GDAL.
 * Data: Smithsonian Conservation Biology Institute / ForestGEO, CC BY 4.0; credit in fixtures/scbi/LICENCE.txt.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { program } from '../../cli/prepare.mjs';
import { censusDrafts, credit, knownBadDrafts, liveStems, tagOf, utmAt } from '../../fixtures/scbi/census.ts';
import { cutStems, disclaimer, harvestDrafts, protectedStems } from '../../fixtures/scbi/harvest.ts';
import { basalArea } from '../../src/measure/index.ts';
import type { Draft } from '../../src/record/index.ts';
import { ogrinfo } from '../layers/ogrinfo.ts';
import { needs } from '../needs.ts';

let folder = '';
const logbook = () => join(folder, 'plot.logbook');
const layer = (name: string, product = '.epsg26917') => join(folder, 'layers', `${name}${product}.geojson`);

/** Runs the built command on the plot's logbook, at home in the test's own folder. */
function gapledger(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    encoding: 'utf8',
    env: { ...process.env, GAPLEDGER_HOME: join(folder, 'home'), GAPLEDGER_LOGBOOK: logbook() },
    maxBuffer: 64 * 1024 * 1024,
  });
  return { status, stdout, stderr };
}

function done(...words: string[]): string {
  const { status, stdout, stderr } = gapledger(...words);
  if (status !== 0) throw new Error(`gapledger ${words.join(' ')} ended with ${status}: ${stderr}${stdout}`);
  return stdout;
}

function draftFile(name: string, drafts: readonly Draft[]): string {
  const path = join(folder, name);
  writeFileSync(path, drafts.map((draft) => `${JSON.stringify(draft)}\n`).join(''));
  return path;
}

function start(path: string): void {
  const place = ['--zone', 'America/New_York', '--units', 'metric', '--crs', 'EPSG:26917'];
  done('init', path, '--name', 'SCBI window', ...place, '--breast-height', '1.3 m', '--by', 'Example Keeper');
}

const json = (...words: string[]): unknown => JSON.parse(done(...words, '--json'));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gapledger-plot-'));
  start(logbook());
  done('record', '--from', draftFile('census.jsonl', censusDrafts()));
  done('record', '--from', draftFile('harvest.jsonl', harvestDrafts()));
  done('export', '--crs', 'working', '--out', join(folder, 'layers'));
  done('export', '--out', join(folder, 'layers'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

type Point = { geometry: { coordinates: [number, number] }; properties: Record<string, unknown> };
const features = (name: string): Point[] =>
  (JSON.parse(readFileSync(layer(name), 'utf8')) as { features: Point[] }).features;
const standing = () => features('stems').map(({ properties }) => properties);

describe('the stand in the logbook', () => {
  test('has every live stem of the census, seven of them felled round four protected ones', () => {
    expect(done('stand')).toContain('407 stems: 400 standing, 7 felled.');
    expect(cutStems()).toHaveLength(7);
    expect(protectedStems()).toHaveLength(4);
  });

  test('keeps the basal area of the census: 38.25 m² per hectare, less the felled stems', () => {
    const inMillimetres = new Map(liveStems().map((row) => [tagOf(row), Number(row.dbh_mm)]));
    for (const { tag, dbh_cm } of standing())
      expect(Number(dbh_cm) * 10).toBeCloseTo(inMillimetres.get(String(tag)) ?? Number.NaN, 6);
    const left = standing().reduce((sum, { dbh_cm }) => sum + basalArea(Number(dbh_cm), 'cm', 'm2'), 0);
    const felled = cutStems().reduce((sum, { dbh_mm }) => sum + basalArea(Number(dbh_mm), 'mm', 'm2'), 0);
    expect(left / 0.48 + felled / 0.48).toBeCloseTo(38.25, 2);
    expect(felled / 0.48).toBeGreaterThan(2);
  });

  test('names species by the shipped list, and by the code of the plot where that list has no such Latin name', () => {
    const count = (code: string, list: string) =>
      standing().filter(({ species_code, species_list }) => species_code === code && species_list === list)
        .length;
    // Counted in the census file: 55 litu (7 of them felled here), 46 cagl, 29 cato, 52 libe.
    expect(count('LITU', 'us')).toBe(55 - 7);
    expect(count('CAGL8', 'us')).toBe(46);
    expect(count('cato', 'scbi')).toBe(29);
    expect(count('libe', 'scbi')).toBe(52);
  });

  test('notes which diameter the census did not take at breast height', () => {
    expect(done('log')).toContain('taken at 1.10 m above ground');
  });

  test('dates stems to the day of their census, and calls what was typed years afterwards late', () => {
    const findings = json('findings', '--all') as { code: string }[];
    const late = findings.filter(({ code }) => code === 'late-entry');
    expect(late).toHaveLength(censusDrafts().length + harvestDrafts().length);
    // As it was on the evening of the census, nothing was felled.
    expect(done('stand', '--at', '2013-12-31')).toContain('407 stems: 407 standing');
  });
});

describe.skipIf(!needs('ogrinfo', 'ogr2ogr'))('GDAL on the exported layers', () => {
  /** Tag, x and y as GDAL reads them, put into the given system first where one is given. */
  function places(file: string, into?: string): Map<string, [number, number]> {
    const to = into === undefined ? [] : ['-t_srs', into];
    const csv = ['-f', 'CSV', '/vsistdout/', file, ...to, '-select', 'tag', '-lco', 'GEOMETRY=AS_XY'];
    const { stdout, status, stderr } = spawnSync('ogr2ogr', csv, { encoding: 'utf8' });
    expect(status, stderr).toBe(0);
    const [, ...rows] = stdout.trim().split('\n');
    return new Map(
      rows.map((row) => {
        const [x = '', y = '', tag = ''] = row.replaceAll('"', '').split(',');
        return [tag, [Number(x), Number(y)]];
      }),
    );
  }

  function expectWhereTheFileHasThem(...found: ReadonlyMap<string, [number, number]>[]): void {
    for (const row of liveStems()) {
      const [easting, northing] = found.flatMap((places) => [places.get(tagOf(row))]).find(Boolean) ?? [];
      expect(Math.abs((easting ?? Number.NaN) - Number(row.utm_e)), tagOf(row)).toBeLessThan(0.01);
      expect(Math.abs((northing ?? Number.NaN) - Number(row.utm_n)), tagOf(row)).toBeLessThan(0.01);
    }
  }

  test('reads each layer with its count and reference system', () => {
    const counts = { stems: 400, stumps: 7, lays: 7, saplings: 4, openings: 1, blocks: 1 };
    for (const [name, count] of Object.entries(counts)) {
      expect(ogrinfo(layer(name)), name).toMatchObject({ count, srs: 'EPSG:26917' });
      expect(ogrinfo(layer(name, '')), name).toMatchObject({ count });
    }
  });

  test('finds every stem and stump where the census file has it, within 1 cm, in EPSG:26917', () => {
    expectWhereTheFileHasThem(places(layer('stems')), places(layer('stumps')));
  });

  test('finds them there too from longitude and latitude, put into EPSG:26917 by PROJ', () => {
    // WGS 84 stands for NAD83 here, as the layers say: GDAL is told so, or it might shift by its own grids.
    expectWhereTheFileHasThem(
      places(layer('stems', ''), 'EPSG:32617'),
      places(layer('stumps', ''), 'EPSG:32617'),
    );
  });

  test('has the block at 0.48 ha, as 60 by 80 m laid along the plot', () => {
    const corners = features('blocks')[0]?.geometry.coordinates[0] as unknown as [number, number][];
    const sides = corners.slice(1).map(([x, y], index) => {
      const [fromX, fromY] = corners[index] ?? [Number.NaN, Number.NaN];
      return Math.hypot(x - fromX, y - fromY);
    });
    expect(sides.map(Math.round).sort((one, other) => one - other)).toEqual([60, 60, 80, 80]);
  });
});

describe('the lays', () => {
  test('begin at the stumps of the census and lead away from the middle of the group', () => {
    const byTag = new Map(liveStems().map((row) => [tagOf(row), row]));
    const middle = utmAt(248, 220);
    expect(features('lays')).toHaveLength(7);
    for (const { geometry, properties } of features('lays')) {
      const [start, end] = geometry.coordinates as unknown as [[number, number], [number, number]];
      const row = byTag.get(String(properties.tag));
      expect(Math.hypot(start[0] - Number(row?.utm_e), start[1] - Number(row?.utm_n))).toBeLessThan(0.01);
      // 28 m on the ground; the grid of UTM is stretched by at most 0.1 % within its zone.
      expect(Math.hypot(end[0] - start[0], end[1] - start[1])).toBeCloseTo(28, 1);
      const fromMiddle = ([x, y]: readonly [number, number]) =>
        Math.hypot(x - middle.easting, y - middle.northing);
      // Straight away: the distance from the middle grows by the whole length, but for whole degrees of azimuth.
      expect(fromMiddle(end) - fromMiddle(start)).toBeCloseTo(28, 1);
    }
  });
});

describe('the report', () => {
  test('carries credit and disclaimer, what was felled and kept, and the tree head', () => {
    for (const name of ['report.html', 'report.json']) done('report', '--out', join(folder, name));
    const html = readFileSync(join(folder, 'report.html'), 'utf8');
    const model = readFileSync(join(folder, 'report.json'), 'utf8');
    const { evidence, groups } = JSON.parse(model) as {
      evidence: { size: number; root: string };
      groups: { label: string; tally: { what: string; count: number }[] }[];
    };
    // The note of the census stands in the report, so that the credit goes wherever the figures go.
    for (const text of [credit, disclaimer, 'CC BY 4.0', evidence.root]) {
      expect(html).toContain(text);
      expect(model).toContain(text);
    }
    const tally = new Map(
      groups.find(({ label }) => label === 'G1')?.tally.map(({ what, count }) => [what, count]),
    );
    expect(tally.get('felled and down')).toBe(7);
    expect(tally.get('felled without a mark')).toBe(0);
    expect(done('verify', '--since', `${evidence.size}:${evidence.root}`)).toContain('nothing changed');
  });
});

describe('the proof', () => {
  test('verifies, and fails with 3 once a byte of one stem in the file is another', () => {
    expect(gapledger('verify').status).toBe(0);
    const copy = join(folder, 'copy.logbook');
    done('backup', copy);
    expect(gapledger('verify', '--logbook', copy).status).toBe(0);
    const bytes = readFileSync(copy);
    const at = bytes.indexOf('Carya glabra');
    expect(at).toBeGreaterThan(0);
    bytes[at] = (bytes[at] ?? 0) ^ 1;
    writeFileSync(copy, bytes);
    const { status, stderr } = gapledger('verify', '--logbook', copy);
    expect(status, stderr).toBe(3);
    expect(stderr).toMatch(/entry \d+/);
  });
});

describe('the published coordinates without the offset of their quadrat', () => {
  const bad = (name: string) => draftFile(name, knownBadDrafts());

  test('are questioned in a sentence that says what is wrong, and nothing is recorded', () => {
    const empty = join(folder, 'empty.logbook');
    start(empty);
    const before = json('status', '--logbook', empty);
    const { status, stderr } = gapledger('record', '--from', bad('bad.jsonl'), '--logbook', empty);
    expect(status).toBe(2);
    expect(stderr).toMatch(/\d{3} stems stand in one square of 20 × 20 m .*offset between quadrats left out/);
    expect(stderr).toMatch(/Nothing was recorded/);
    expect(json('status', '--logbook', empty)).toEqual(before);

    done('record', '--from', bad('bad.jsonl'), '--logbook', empty, '--anyway');
    expect(done('stand', '--logbook', empty)).toContain('400 stems');
  });

  test('are questioned as a whole before single lines, where the stand has the same tags already', () => {
    const { status, stderr } = gapledger('record', '--from', bad('again.jsonl'));
    expect(status).toBe(2);
    expect(stderr.split('\n')[0]).toMatch(/stems stand in one square/);
    expect(stderr).toMatch(/line \d+: Tag \d+ is on a standing stem already/);
  });
});
