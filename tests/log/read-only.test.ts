// A logbook where nothing may be written: on a stick, in somebody else's folder. To test it this process gives up
// being root, for good: root may write anywhere.
import { chmodSync, copyFileSync, existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { createLogbook, openLogbook, verifyLogbook } from '../../src/log/store/index.ts';
import { all, emptyFolder, entries, idOf, noon } from './made-up.ts';
import { writeLogbook } from './tampering.ts';

beforeAll(() => {
  // Loads the library before its folder may be out of reach.
  new Sqlite(':memory:').close();
  if (process.getuid?.() !== 0) return;
  const nobody = 65_534;
  process.setgroups?.([nobody]);
  process.setgid?.(nobody);
  process.setuid?.(nobody);
});

/** A logbook of 14 entries, three of them in the write-ahead log only when it is to be kept. */
async function stick(options: { wal: boolean; folder: boolean }): Promise<string> {
  const home = emptyFolder();
  const source = join(home, 'woods.logbook');
  const log = await createLogbook(source);
  await writeLogbook(log);
  await log.close();
  const again = await openLogbook(source);
  await again.append(entries(20, 22), noon);
  if (!options.wal) await again.close();
  const folder = join(home, 'stick');
  mkdirSync(folder);
  const path = join(folder, 'woods.logbook');
  for (const ending of ['', '-wal']) {
    if (!existsSync(`${source}${ending}`)) continue;
    copyFileSync(`${source}${ending}`, `${path}${ending}`);
    chmodSync(`${path}${ending}`, 0o444);
  }
  if (options.wal) await again.close();
  chmodSync(folder, options.folder ? 0o555 : 0o755);
  onTestFinished(() => chmodSync(folder, 0o755));
  return path;
}

describe('where nothing may be written', () => {
  for (const wal of [false, true]) {
    for (const folder of [false, true]) {
      const where = `${folder ? 'in a folder that is read-only too' : 'a file that is read-only'}${wal ? ', with a write-ahead log that was not merged' : ''}`;
      it(`a logbook opens for reading and verifies: ${where}`, async () => {
        const path = await stick({ wal, folder });
        expect(existsSync(`${path}-wal`)).toBe(wal);
        const log = await openLogbook(path);
        expect(log.facts()).toMatchObject({ readOnly: true, newer: false, path, logbook: idOf(1) });
        expect(await all(log)).toHaveLength(14);
        expect(await log.lookup(({ id }) => [id], '1').positions([idOf(21)])).toEqual([12]);
        await expect(log.append(entries(30, 30), noon)).rejects.toMatchObject({ code: 'read-only' });
        expect(await verifyLogbook(path, { since: await log.head() })).toMatchObject({ ok: true, size: 14 });
        await log.close();
        if (folder) expect(readdirSync(join(path, '..'))).toHaveLength(wal ? 2 : 1);
      });
    }
  }

  it('a file that may not even be read is told so', async () => {
    const path = await stick({ wal: false, folder: false });
    chmodSync(path, 0o000);
    await expect(openLogbook(path)).rejects.toMatchObject({ code: 'unreadable' });
    await expect(verifyLogbook(path)).rejects.toThrow(/cannot be read. Check its permissions/);
  });
});
