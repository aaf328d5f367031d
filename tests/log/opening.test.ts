// Opening: what is no logbook is refused and stays as it was, what a newer program wrote is read, and no path makes
// a file by being mistyped.
import { once } from 'node:events';
import { mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import {
  createLogbook,
  LogbookError,
  openLogbook,
  restoreLogbook,
  verifyLogbook,
} from '../../src/log/store/index.ts';
import { all, emptyFolder, emptyPlace, entries, idOf, noon } from './made-up.ts';
import { soundLogbook, tamper } from './tampering.ts';

/** Files that are no logbook, by what they are; each written at the path it is given. */
const others: Readonly<Record<string, (path: string) => Promise<void> | void>> = {
  'an empty file': (path) => writeFileSync(path, ''),
  'a text': (path) => writeFileSync(path, 'A12 cut\nA13 leave\n'.repeat(300)),
  'bytes behind the first line of an SQLite file': (path) =>
    writeFileSync(path, Buffer.concat([Buffer.from('SQLite format 3\0'), Buffer.alloc(9000, 0x5a)])),
  'an SQLite file of another program': (path) => {
    const database = new Sqlite(path);
    database.pragma('journal_mode = WAL');
    database.exec('CREATE TABLE entry (position INTEGER PRIMARY KEY, bytes BLOB)');
    database.close();
  },
  'an SQLite file with the mark of a logbook and no format': (path) => {
    const database = new Sqlite(path);
    database.pragma(`application_id = ${0x4741504c}`);
    database.exec('CREATE TABLE entry (position INTEGER PRIMARY KEY, bytes BLOB)');
    database.close();
  },
  'an SQLite file with mark and format and none of the tables': (path) => {
    const database = new Sqlite(path);
    database.pragma(`application_id = ${0x4741504c}`);
    database.pragma('user_version = 1');
    database.pragma('journal_mode = WAL');
    database.exec('CREATE TABLE other (position INTEGER PRIMARY KEY, bytes BLOB)');
    database.close();
  },
  'the first half of a logbook': async (path) => {
    writeFileSync(path, readFileSync(await soundLogbook()));
    truncateSync(path, 20_480);
  },
  'the first page of a logbook': async (path) => {
    writeFileSync(path, readFileSync(await soundLogbook()));
    truncateSync(path, 4096);
  },
  'the first hundred bytes of a logbook': async (path) => {
    writeFileSync(path, readFileSync(await soundLogbook()).subarray(0, 100));
  },
};

async function isRefused(doing: Promise<unknown>): Promise<void> {
  await expect(doing).rejects.toThrow(LogbookError);
  await expect(doing).rejects.toMatchObject({
    code: expect.stringMatching(/^(not-a-logbook|unreadable)$/) as unknown,
  });
}

describe('what is no logbook is refused with a sentence and stays as it is, byte for byte:', () => {
  for (const [name, make] of Object.entries(others)) {
    it(name, async () => {
      const path = emptyPlace();
      await make(path);
      const before = readFileSync(path);
      await isRefused(readOrVerify(() => openLogbook(path)));
      await isRefused(readOrVerify(() => openLogbook(path, { readOnly: true })));
      await isRefused(restoreLogbook(path, emptyPlace('restored.logbook'), emptyFolder()));
      expect(readFileSync(path).equals(before)).toBe(true);
      expect(readdirSync(dirname(path))).toEqual(['woods.logbook']);
    });
  }

  it('a folder', async () => {
    const path = emptyPlace();
    mkdirSync(path);
    await expect(openLogbook(path)).rejects.toMatchObject({ code: 'not-a-logbook' });
  });

  it('a socket', async () => {
    const path = emptyPlace();
    const server = createServer().listen(path);
    await once(server, 'listening');
    await expect(openLogbook(path)).rejects.toMatchObject({ code: 'not-a-logbook' });
    await expect(verifyLogbook(path)).rejects.toMatchObject({ code: 'not-a-logbook' });
    server.close();
  });
});

/** A truncated logbook may open; then reading it must say what is the matter. */
async function readOrVerify(open: () => ReturnType<typeof openLogbook>): Promise<void> {
  const log = await open();
  try {
    await all(log);
    const { path } = log.facts();
    const { ok, problems } = await verifyLogbook(path);
    expect(ok).toBe(false);
    throw new LogbookError('unreadable', path, problems[0]?.sentence ?? '');
  } finally {
    await log.close();
  }
}

it('reading and verifying leave nothing beside a logbook, nor change it', async () => {
  const path = await soundLogbook();
  const before = readFileSync(path);
  const log = await openLogbook(path, { readOnly: true });
  await all(log);
  await log.close();
  await verifyLogbook(path);
  expect(readdirSync(dirname(path))).toEqual(['woods.logbook']);
  expect(readFileSync(path).equals(before)).toBe(true);
});

describe('a path', () => {
  it('that is wrong makes no file', async () => {
    const folder = emptyFolder();
    for (const path of [
      join(folder, 'wods.logbook'),
      join(folder, 'no', 'folder', 'x'),
      join(folder, 'x.logbook', 'y'),
    ]) {
      await expect(openLogbook(path)).rejects.toMatchObject({ code: 'missing', path });
      await expect(openLogbook(path, { readOnly: true })).rejects.toMatchObject({ code: 'missing' });
      await expect(verifyLogbook(path)).rejects.toMatchObject({ code: 'missing' });
      await expect(restoreLogbook(path, join(folder, 'restored'))).rejects.toMatchObject({ code: 'missing' });
    }
    expect(readdirSync(folder)).toEqual([]);
  });

  it('that is taken is not written over, nor one beside which a write-ahead log was left', async () => {
    const folder = emptyFolder();
    const path = join(folder, 'woods.logbook');
    writeFileSync(path, 'my notes');
    await expect(createLogbook(path)).rejects.toMatchObject({ code: 'exists' });
    writeFileSync(join(folder, 'other-wal'), 'left behind');
    await expect(createLogbook(join(folder, 'other'))).rejects.toMatchObject({ code: 'exists' });
    expect(readFileSync(path, 'utf8')).toBe('my notes');
    expect(readdirSync(folder).toSorted()).toEqual(['other-wal', 'woods.logbook']);
  });

  it('into a folder that is not there is named', async () => {
    const path = join(emptyFolder(), 'barn', 'woods.logbook');
    await expect(createLogbook(path)).rejects.toMatchObject({ code: 'missing', path: dirname(path) });
  });
});

describe('a logbook that a newer program wrote', () => {
  it('opens for reading, says so, keeps what it does not know, and takes nothing', async () => {
    const path = await soundLogbook();
    tamper(path, (database) => {
      database.exec("ALTER TABLE entry ADD COLUMN weather TEXT NOT NULL DEFAULT 'rain'");
      database.exec('ALTER TABLE aside ADD COLUMN seen INTEGER; CREATE TABLE later (what TEXT) STRICT');
      database.pragma('user_version = 2');
    });
    const before = readFileSync(path);
    const log = await openLogbook(path);
    expect(log.facts()).toMatchObject({ readOnly: true, newer: true, format: 2, logbook: idOf(1) });
    expect(await all(log)).toHaveLength(11);
    expect(await log.aside()).toEqual([]);
    expect(await log.lookup(({ id }) => [id], '1').positions([idOf(4)])).toEqual([3]);
    await expect(log.append(entries(20, 20), noon)).rejects.toMatchObject({ code: 'read-only' });
    await expect(
      log.setAside(Buffer.from('x'), { field: '', value: '', remedy: '' }, noon),
    ).rejects.toMatchObject({ code: 'read-only' });
    expect(await verifyLogbook(log)).toMatchObject({ ok: true, size: 11, notes: { newer: true } });
    await log.close();
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('is still verified entry by entry', async () => {
    const path = await soundLogbook();
    tamper(path, (database) => {
      database.exec("UPDATE entry SET received_at = '2026-03-14T17:08:01.000Z' WHERE position = 4");
      database.pragma('user_version = 2');
    });
    expect((await verifyLogbook(path)).problems).toMatchObject([
      { what: 'leaf', position: 4 },
      { what: 'head' },
    ]);
  });
});
