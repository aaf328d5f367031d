// Runs a command of the built program once and keeps beside each chunk what V8 has compiled by then.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const thisFile = fileURLToPath(import.meta.url);

/**
 * Makes the code caches for recording an entry, which is done a hundred times a day.
 * @param {string} program path of the built main.js
 * @throws {Error} when the program cannot record
 */
export function makeCodeCaches(program) {
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-build-'));
  const logbook = join(folder, 'a.logbook');
  const env = { ...process.env, GAPLEDGER_HOME: join(folder, 'home') };
  /** @param {readonly string[]} words */
  const run = (...words) => {
    const { status, stderr, error } = spawnSync(process.execPath, words, { env, encoding: 'utf8' });
    if (status !== 0) throw new Error(`The program that was built does not run: ${error?.message ?? stderr}`);
  };
  try {
    const about = ['--zone', 'America/New_York', '--units', 'us', '--crs', 'EPSG:2264', '--by', 'Build'];
    run(program, 'init', logbook, '--name', 'Build', ...about);
    const stem = ['--mark', 'cut', '--tag', 'A1', '--species', 'scarlet oak', '--dbh', '14.2'];
    run(thisFile, program, 'record', 'stem-marked', '--logbook', logbook, ...stem, '--by', 'Build');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** @typedef {{ start: () => void, folder: string, loaded: Map<string, { script: import('node:vm').Script }> }} Loader */

/**
 * In a process of its own: the program takes its words from the command line and runs once.
 * @param {string} program
 */
function runAndKeep(program) {
  process.argv = [process.argv[0] ?? '', program, ...process.argv.slice(3)];
  const loader = /** @type {Loader} */ (createRequire(thisFile)(program));
  process.on('exit', () => {
    for (const [name, { script }] of loader.loaded) {
      const path = join(loader.folder, `${name}.cache`);
      const cache = script.createCachedData();
      writeFileSync(`${path}.new`, Buffer.concat([createHash('sha256').update(cache).digest(), cache]));
      renameSync(`${path}.new`, path);
    }
  });
  loader.start();
}

if (process.argv[1] === thisFile) runAndKeep(process.argv[2] ?? '');
