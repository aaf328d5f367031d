// The bundle of the command line: self-contained but for the compiled SQLite binding, lazy where commands are, and
// the same program with and without what V8 compiled of it beforehand.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { bundleProgram } from '../../cli/bundle.mjs';
import { root } from '../../cli/prepare.mjs';
import { listCrs, project } from '../../src/place/index.ts';

// Inside node_modules, so that the sample resolves packages as the project's own files do, and git sees none of it.
mkdirSync(join(root, 'node_modules/.cache'), { recursive: true });
const folder = mkdtempSync(join(root, 'node_modules/.cache/bundle-'));
afterAll(() => rmSync(folder, { recursive: true }));

const entry = join(folder, 'entry.ts');
const outputFolder = join(folder, 'dist');

function bundle(source: string): Promise<string> {
  writeFileSync(entry, source);
  return bundleProgram({ entry, outputFolder, version: '12.3.4' });
}

const chunks = () => readdirSync(join(outputFolder, 'chunks'));

test('the program starts by itself, knows its version and reads no chunk until a command asks', async () => {
  const main = await bundle(`
    declare const GAPLEDGER_VERSION: string;
    const wanted: string = process.argv[2] ?? '';
    if (wanted === '--version') console.log(GAPLEDGER_VERSION);
    else import('cli-table3').then(({ default: Table }) => console.log(new Table({ rows: [] }).toString() === ''));
  `);
  expect(execFileSync(main, ['--version'], { encoding: 'utf8' })).toBe('12.3.4\n');
  // cli-table3 is CommonJS and asks for Node modules through require().
  expect(execFileSync(main, ['table'], { encoding: 'utf8' })).toBe('true\n');
  for (const name of chunks()) if (!name.startsWith('main-')) rmSync(join(outputFolder, 'chunks', name));
  expect(execFileSync(main, ['--version'], { encoding: 'utf8' })).toBe('12.3.4\n');
});

test('a later build takes away the chunks of an earlier one', async () => {
  await bundle(`import('uuid').then(({ v7 }) => console.log(v7().length));`);
  const earlier = chunks();
  await bundle(`import('picocolors').then(({ default: colors }) => console.log(colors.bold('x')));`);
  const later = chunks();
  expect(later.length).toBeGreaterThan(0);
  expect(later.filter((name) => earlier.includes(name))).toEqual([]);
});

test('the SQLite binding is loaded from node_modules, not bundled', async () => {
  const main = await bundle(`
    import Database from 'better-sqlite3';
    console.log(new Database(':memory:').prepare('SELECT 1 + 1 AS two').pluck().get());
  `);
  const text = chunks().map((name) => readFileSync(join(outputFolder, 'chunks', name), 'utf8'));
  expect(text.join()).toContain('require("better-sqlite3/build/Release/better_sqlite3.node")');
  expect(execFileSync(main, { encoding: 'utf8' })).toBe('2\n');
});

test('a program whose code caches are gone, cut off or of another V8 runs all the same', async () => {
  const main = await bundle(`console.log([1, 2, 3].map((number) => number * number).join());`);
  const run = () => execFileSync(main, { encoding: 'utf8' });
  execFileSync(process.execPath, [join(root, 'cli/code-cache.mjs'), main]);
  const caches = chunks().filter((name) => name.endsWith('.cache'));
  expect(caches).toHaveLength(1);
  const cache = join(outputFolder, 'chunks', caches[0] ?? '');
  const whole = readFileSync(cache);
  expect(run()).toBe('1,4,9\n');
  writeFileSync(cache, whole.subarray(0, whole.length / 2));
  expect(run()).toBe('1,4,9\n');
  // Another V8 has another hash of its version, which follows four bytes that say what the file is.
  const foreign = Buffer.from(whole.subarray(32)).fill(0, 4, 8);
  writeFileSync(cache, Buffer.concat([createHash('sha256').update(foreign).digest(), foreign]));
  expect(run()).toBe('1,4,9\n');
  writeFileSync(cache, Buffer.from(whole).fill(0x55, 100));
  expect(run()).toBe('1,4,9\n');
  rmSync(cache);
  expect(run()).toBe('1,4,9\n');
});

test('the program projects as its source does', async () => {
  const place = join(root, 'src/place/index.ts');
  const main = await bundle(`
    import { listCrs, project } from ${JSON.stringify(place)};
    const middle = ({ west, south, east, north }) => ({ lon: (west + east) / 2, lat: (south + north) / 2 });
    console.log(JSON.stringify(listCrs().map(({ code, bounds }) => [code, project(code, middle(bounds))])));
  `);
  const bundled = JSON.parse(execFileSync(main, { encoding: 'utf8' })) as [string, unknown][];
  expect(bundled.length).toBe(listCrs().length);
  for (const [index, { code, bounds }] of listCrs().entries()) {
    const { west, south, east, north } = bounds;
    expect(bundled[index]).toEqual([
      code,
      project(code, { lon: (west + east) / 2, lat: (south + north) / 2 }),
    ]);
  }
});
