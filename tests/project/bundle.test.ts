// The bundle of the command line: self-contained but for the compiled SQLite binding, and lazy where commands are.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { bundleProgram } from '../../cli/bundle.mjs';
import { root } from '../../cli/prepare.mjs';

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
  expect(readFileSync(main, 'utf8')).not.toMatch(/^import .*chunks/m);
  rmSync(join(outputFolder, 'chunks'), { recursive: true });
  expect(execFileSync(main, ['--version'], { encoding: 'utf8' })).toBe('12.3.4\n');
});

test('a later build takes away the chunks of an earlier one', async () => {
  await bundle(`import('uuid').then(({ v7 }) => console.log(v7().length));`);
  const earlier = readdirSync(join(outputFolder, 'chunks'));
  await bundle(`import('picocolors').then(({ default: colors }) => console.log(colors.bold('x')));`);
  const later = readdirSync(join(outputFolder, 'chunks'));
  expect(later.length).toBeGreaterThan(0);
  expect(later.filter((name) => earlier.includes(name))).toEqual([]);
});

test('the SQLite binding is loaded from node_modules, not bundled', async () => {
  const main = await bundle(`
    import Database from 'better-sqlite3';
    console.log(new Database(':memory:').prepare('SELECT 1 + 1 AS two').pluck().get());
  `);
  expect(readFileSync(main, 'utf8')).toMatch(/from ?"better-sqlite3"/);
  expect(execFileSync(main, { encoding: 'utf8' })).toBe('2\n');
});
