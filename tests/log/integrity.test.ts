// Damage that lies beside the entries, in an index: the entries verify, and SQLite's own check finds it; in the
// thread of the caller as in one of its own.
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import Sqlite, { type Database } from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { createLogbook, verifyLogbook } from '../../src/log/store/index.ts';
import { startIntegrityCheck } from '../../src/log/store/integrity.ts';
import { deviceA, emptyPlace, entryOf, noon } from './made-up.ts';
import { soundLogbook } from './tampering.ts';

/** Changes one letter in the index of devices; the entries stay as they are. */
function damageIndex(path: string): void {
  const database = new Sqlite(path);
  const page = database
    .prepare<[], number>("SELECT rootpage FROM sqlite_schema WHERE name = 'entry_of_device'")
    .pluck()
    .get();
  const size = Number(database.pragma('page_size', { simple: true }));
  database.close();
  const bytes = readFileSync(path);
  const at = bytes.indexOf(deviceA, ((page ?? 0) - 1) * size);
  expect(Math.floor(at / size) + 1, 'the index begins on the page of its root').toBe(page);
  bytes.write('f', at);
  writeFileSync(path, bytes);
}

function opened(path: string): Database {
  const database = new Sqlite(path, { readonly: true });
  onTestFinished(() => void database.close());
  return database;
}

async function linesOf(database: Database, threadFrom: number): Promise<readonly string[]> {
  const check = startIntegrityCheck(database, threadFrom);
  try {
    return await check.lines();
  } finally {
    await check.stop();
  }
}

const threads = [
  ['in the thread of the caller', Number.POSITIVE_INFINITY],
  ['in a thread of its own', 0],
] as const;

describe.each(threads)('the check of the file %s', (_where, threadFrom) => {
  it('finds nothing in a sound logbook', async () => {
    expect(await linesOf(opened(await soundLogbook()), threadFrom)).toEqual([]);
  });

  it('finds a damaged index', async () => {
    const path = await soundLogbook();
    damageIndex(path);
    const lines = await linesOf(opened(path), threadFrom);
    expect(lines.join('\n')).toMatch(/missing from index entry_of_device/);
  });
});

it('a file that only the caller still reaches is checked by the caller', async () => {
  const path = await soundLogbook();
  damageIndex(path);
  const database = opened(path);
  database.exec('BEGIN; SELECT size FROM head');
  renameSync(path, `${path}-elsewhere`);
  expect(await linesOf(database, 0)).toEqual(await linesOf(database, Number.POSITIVE_INFINITY));
});

it('a large logbook with a damaged index does not verify', async () => {
  const path = emptyPlace();
  const log = await createLogbook(path);
  const text = 'x'.repeat(60_000);
  const entries = Array.from({ length: 300 }, (_, index) => entryOf(index + 1, { body: { text } }));
  await log.append(
    entries.map((bytes) => ({ bytes })),
    noon,
  );
  await log.close();
  expect(await verifyLogbook(path)).toMatchObject({ ok: true, size: 300 });
  damageIndex(path);
  const { problems } = await verifyLogbook(path);
  expect(problems.length).toBeGreaterThan(0);
  for (const { what, sentence } of problems) {
    expect(what).toBe('database');
    expect(sentence).toMatch(/^SQLite finds the file damaged: .*entry_of_device/);
  }
});
