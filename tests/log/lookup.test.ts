// The keys kept in the file are a cache: wrong, gone or out of reach they are made again or done without, and the
// answers stay those of a scan.
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import {
  createLogbook,
  type Log,
  openLogbook,
  type Stored,
  verifyLogbook,
} from '../../src/log/store/index.ts';
import { emptyPlace, entries, idOf, noon } from './made-up.ts';
import { tamper } from './tampering.ts';

const byId = ({ id }: Stored): string[] => [id, 'every'];

async function filled(): Promise<{ path: string; log: Log }> {
  const path = emptyPlace();
  const log = await createLogbook(path);
  await log.append(entries(1, 30), noon);
  expect(await log.lookup(byId, '1').positions([idOf(7)])).toEqual([6]);
  return { path, log };
}

async function expectAnswers(log: Log, size: number): Promise<void> {
  const lookup = log.lookup(byId, '1');
  expect(await lookup.positions([idOf(7), idOf(size), idOf(999)])).toEqual([6, size - 1]);
  expect(await lookup.positions(['every'])).toHaveLength(size);
  expect((await lookup.entries([idOf(3)])).map(({ id }) => id)).toEqual([idOf(3)]);
}

/** Rows of the cache, seen from outside. */
function cached(path: string): number {
  const database = new Sqlite(path, { readonly: true });
  const count = database.prepare<[], number>('SELECT count(*) FROM cache').pluck().get() ?? -1;
  database.close();
  return count;
}

describe('a lookup answers like a scan', () => {
  for (const [name, deed] of Object.entries({
    'after its table was dropped': 'DROP TABLE cache',
    'after its table was emptied': 'DELETE FROM cache',
    'after its table was made by somebody else': 'DROP TABLE cache; CREATE TABLE cache (other)',
    'after it claims more entries than there are':
      "UPDATE cache SET position = 99 WHERE key LIKE char(10) || '%'",
  })) {
    it(`${name}, in an open logbook and in one opened again`, async () => {
      const { path, log } = await filled();
      const open = log.lookup(byId, '1');
      expect(await open.positions([idOf(2)])).toEqual([1]);
      tamper(path, (database) => database.exec(deed));
      expect(await open.positions([idOf(2), 'every'])).toHaveLength(30);
      await expectAnswers(log, 30);
      await log.append(entries(31, 31), noon);
      await expectAnswers(log, 31);
      await log.close();
      const again = await openLogbook(path);
      await expectAnswers(again, 31);
      await again.close();
      expect(await verifyLogbook(path)).toMatchObject({ ok: true });
    });
  }

  it('is made anew when another version of the keys is asked for', async () => {
    const { path, log } = await filled();
    const other = log.lookup(({ position }) => [`number ${position % 3}`], '2');
    expect(await other.positions(['number 1', idOf(7)])).toEqual([1, 4, 7, 10, 13, 16, 19, 22, 25, 28]);
    expect(cached(path)).toBe(31);
    await expectAnswers(log, 30);
    expect(cached(path)).toBe(61);
    await log.close();
  });

  it('where nothing may be written', async () => {
    const { path, log } = await filled();
    await log.append(entries(31, 31), noon);
    await log.close();
    const reader = await openLogbook(path, { readOnly: true });
    await expectAnswers(reader, 31);
    expect(cached(path)).toBe(61);
    await reader.close();
  });

  it('while somebody else holds the logbook', async () => {
    const { path, log } = await filled();
    await log.append(entries(31, 31), noon);
    const other = new Sqlite(path);
    other.exec('BEGIN IMMEDIATE');
    await expectAnswers(log, 31);
    other.exec('ROLLBACK');
    other.close();
    expect(cached(path)).toBe(61);
    await expectAnswers(log, 31);
    expect(cached(path)).toBe(63);
    await log.close();
  });

  it('and passes on what the caller did wrong', async () => {
    const { log } = await filled();
    const lookup = log.lookup(() => {
      throw new TypeError('no keys today');
    }, '3');
    await expect(lookup.positions(['every'])).rejects.toThrow('no keys today');
    await log.close();
  });
});
