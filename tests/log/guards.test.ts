// What the file of a logbook does by itself: durability set on every open, triggers that refuse to change anything,
// erased bytes gone from the disk, and words for a person when it is damaged.
import { readFileSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openFile } from '../../src/log/store/database.ts';
import { createLogbook, LogbookError, openLogbook, verifyLogbook } from '../../src/log/store/index.ts';
import { emptyPlace, entries, entryOf, noon, sealedRow } from './made-up.ts';
import { soundLogbook, tamper, triggersOf } from './tampering.ts';

describe('durability', () => {
  it('is FULL on a new file and on every later open, where SQLite by itself would be content with less', async () => {
    const path = emptyPlace();
    await (await createLogbook(path)).close();
    const bare = new Sqlite(path);
    expect(bare.pragma('journal_mode', { simple: true })).toBe('wal');
    // Measured with better-sqlite3 12, which is built with SQLITE_DEFAULT_WAL_SYNCHRONOUS=1 (NORMAL).
    expect(bare.pragma('synchronous', { simple: true })).toBe(1);
    bare.close();
    for (let time = 0; time < 3; time += 1) {
      const file = openFile(path, false);
      // https://www.sqlite.org/pragma.html#pragma_synchronous: 2 is FULL.
      expect(file.database.pragma('synchronous', { simple: true })).toBe(2);
      expect(file.database.pragma('journal_mode', { simple: true })).toBe('wal');
      expect(file.database.pragma('secure_delete', { simple: true })).toBe(1);
      file.close();
    }
  });
});

describe('triggers', () => {
  const statements: Readonly<Record<string, readonly string[]>> = {
    entry: [
      "UPDATE entry SET received_at = '2020'",
      'UPDATE OR REPLACE entry SET position = 3 WHERE position = 4',
      'DELETE FROM entry',
      'DELETE FROM entry WHERE position = 10',
      'INSERT OR REPLACE INTO entry SELECT * FROM entry WHERE position = 4',
      'REPLACE INTO entry SELECT 11, id, device, seq, bytes, received_at, signature, leaf FROM entry WHERE position = 4',
      "INSERT INTO entry SELECT 12, 'new', device, seq, bytes, received_at, signature, leaf FROM entry WHERE position = 4",
      "INSERT INTO entry SELECT -1, 'new', device, seq, bytes, received_at, signature, leaf FROM entry WHERE position = 4",
    ],
    node: [
      'UPDATE node SET hash = zeroblob(32)',
      'DELETE FROM node',
      'REPLACE INTO node VALUES (1, 1, zeroblob(32))',
    ],
    head: [
      "UPDATE head SET root = 'other'",
      'UPDATE head SET size = size - 1',
      'DELETE FROM head',
      "REPLACE INTO head VALUES (1, 99, 'other')",
    ],
    sealed: [
      "UPDATE sealed SET media_type = 'text/html'",
      'DELETE FROM sealed',
      'REPLACE INTO sealed SELECT hash, salt, zeroblob(3), media_type FROM sealed',
      "REPLACE INTO sealed (rowid, hash, salt, bytes, media_type) SELECT rowid, 'x', salt, bytes, media_type FROM sealed",
    ],
    erased: [
      'UPDATE erased SET position = 0',
      'DELETE FROM erased',
      'REPLACE INTO erased SELECT hash, 0 FROM erased',
      "REPLACE INTO erased (rowid, hash, position) SELECT rowid, 'x', 0 FROM erased",
    ],
    aside: [
      "UPDATE aside SET remedy = ''",
      'DELETE FROM aside',
      'REPLACE INTO aside SELECT * FROM aside',
      "REPLACE INTO aside (number, hash, bytes, received_at, field, value, remedy) VALUES (1, 'x', x'', '', '', '', '')",
    ],
    aside_sealed: [
      "UPDATE aside_sealed SET media_type = ''",
      'DELETE FROM aside_sealed',
      "REPLACE INTO aside_sealed (rowid, aside, hash, salt, bytes, media_type) SELECT rowid, 1, 'x', x'', x'', '' FROM aside_sealed",
    ],
    backup_made: [
      "UPDATE backup_made SET at = ''",
      'DELETE FROM backup_made',
      "REPLACE INTO backup_made VALUES (1, '', '', 0, '')",
    ],
  };

  for (const [table, attempts] of Object.entries(statements)) {
    it(`of ${table} refuse to change, delete or replace`, async () => {
      const path = await soundLogbook();
      const log = await openLogbook(path);
      await log.append([{ bytes: Buffer.from('rubbish'), sealed: [sealedRow('a photo aside')] }], noon);
      await log.noteBackup({ at: noon, name: 'backup', head: await log.head() });
      await log.close();
      const database = new Sqlite(path);
      const rows = (): unknown[] => database.prepare(`SELECT * FROM ${table}`).all();
      const before = rows();
      expect(before.length).toBeGreaterThan(0);
      for (const attempt of attempts) {
        expect(() => database.exec(attempt), attempt).toThrow(/logbook|next position|forward|erasing/);
        expect(rows(), attempt).toEqual(before);
      }
      database.close();
      expect(await verifyLogbook(path)).toMatchObject({ ok: true });
    });
  }

  it('guard every table that holds evidence', async () => {
    const path = await soundLogbook(1);
    const database = new Sqlite(path);
    const tables = database
      .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'cache'")
      .pluck()
      .all();
    expect(tables.toSorted()).toEqual(Object.keys(statements).toSorted());
    expect(triggersOf(database).length).toBeGreaterThanOrEqual(3 * tables.length);
    database.close();
  });
});

describe('erasing', () => {
  it('leaves no trace of the bytes in the file or beside it', async () => {
    const path = emptyPlace();
    const log = await createLogbook(path);
    const secret = sealedRow('Jo Sawyer, 12 Mill Lane, broke a wrist. '.repeat(400));
    const needle = Buffer.from('12 Mill Lane');
    const onDisk = (): boolean => [path, `${path}-wal`].some((file) => readFileSync(file).includes(needle));
    await log.append([{ bytes: entryOf(1, { sealed: [secret.hash] }), sealed: [secret] }], noon);
    await log.append([{ bytes: Buffer.from('rubbish'), sealed: [secret] }], noon);
    expect(onDisk()).toBe(true);
    await log.append([{ bytes: entryOf(2, { erases: [secret.hash] }) }], noon);
    await log.append([{ bytes: Buffer.from('more rubbish'), sealed: [secret] }], noon);
    expect(onDisk()).toBe(false);
    await log.close();
    expect(await verifyLogbook(path)).toMatchObject({ ok: true, notes: { erased: 1, aside: 2 } });
  });
});

describe('a damaged logbook', () => {
  const damages: Readonly<Record<string, string>> = {
    'no head': 'DELETE FROM head',
    'a head that does not fit': "UPDATE head SET root = '00'",
    'a head that is too long': 'UPDATE head SET size = 40',
    'a head that is too short': 'UPDATE head SET size = 9',
    'a node missing': 'DELETE FROM node WHERE level = 3',
    'the last entry missing': 'DELETE FROM entry WHERE position = 10',
  };
  for (const [name, damage] of Object.entries(damages)) {
    it(`takes no more entries: ${name}`, async () => {
      const path = await soundLogbook();
      tamper(path, (database) => database.exec(damage));
      const before = readFileSync(path);
      const log = await openLogbook(path);
      const appending = log.append(entries(20, 25), noon);
      await expect(appending).rejects.toThrow(LogbookError);
      await expect(appending).rejects.toThrow(/Run "gapledger verify"/);
      await expect(appending).rejects.toMatchObject({ code: 'unreadable', path });
      await log.close();
      expect(readFileSync(path).equals(before)).toBe(true);
    });
  }
});
