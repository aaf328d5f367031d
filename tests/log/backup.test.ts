// Backup: one verified file of one moment, while others write. Restore: into an empty place, as a new device.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  backupLogbook,
  createLogbook,
  openLogbook,
  recallDevice,
  remember,
  rememberedDevice,
  restoreLogbook,
  verifyLogbook,
} from '../../src/log/store/index.ts';
import { all, deviceA, emptyFolder, emptyPlace, entries, idOf, noon } from './made-up.ts';
import { headOf, person, photo, soundLogbook, tamper } from './tampering.ts';

describe('a backup', () => {
  it('is one file that holds everything, verified, and is noted in the logbook', async () => {
    const path = await soundLogbook();
    const target = emptyPlace('woods.backup');
    const log = await openLogbook(path);
    await log.setAside(Buffer.from('A12 cut?'), { field: 'line', value: '', remedy: 'look' }, noon);
    const made = await backupLogbook(log, target, '2026-03-20T18:00:00Z');
    expect(made).toEqual({ at: '2026-03-20T18:00:00Z', name: 'woods.backup', head: await log.head() });
    expect(await log.lastBackup()).toEqual(made);
    expect(readdirSync(dirname(target))).toEqual(['woods.backup']);
    const copy = await openLogbook(target, { readOnly: true });
    expect(await all(copy)).toEqual(await all(log));
    expect(await copy.aside()).toEqual(await log.aside());
    expect(await copy.sealed(person.hash)).toEqual(person);
    expect(await copy.sealed(photo.hash)).toBeUndefined();
    await copy.close();
    await log.close();
    expect(await verifyLogbook(target, { since: made.head })).toMatchObject({
      ok: true,
      notes: { erased: 1, aside: 1 },
    });
  });

  it('holds nothing of what was erased', async () => {
    const path = await soundLogbook();
    const target = emptyPlace('woods.backup');
    const log = await openLogbook(path);
    await backupLogbook(log, target);
    await log.close();
    expect(readFileSync(target).includes(Buffer.from(person.bytes))).toBe(true);
    expect(readFileSync(target).includes(Buffer.from(photo.bytes))).toBe(false);
  });

  it('is never written over another file, nor does a failed one leave anything', async () => {
    const path = await soundLogbook();
    const folder = emptyFolder();
    const target = join(folder, 'woods.backup');
    writeFileSync(target, 'older');
    const log = await openLogbook(path);
    await expect(backupLogbook(log, target)).rejects.toMatchObject({ code: 'exists' });
    await expect(backupLogbook(log, join(folder, 'no', 'folder', 'x'))).rejects.toMatchObject({
      code: 'missing',
    });
    expect(readdirSync(folder)).toEqual(['woods.backup']);
    expect(readFileSync(target, 'utf8')).toBe('older');
    expect(await log.lastBackup()).toBeUndefined();
    await log.close();
  });

  it('is not made of a logbook that does not verify', async () => {
    const path = await soundLogbook();
    tamper(path, (database) =>
      database.exec("UPDATE entry SET received_at = '2026-03-14T17:08:01.000Z' WHERE position = 4"),
    );
    const target = emptyPlace('woods.backup');
    const log = await openLogbook(path);
    await expect(backupLogbook(log, target)).rejects.toThrow(/does not verify/);
    await log.close();
    expect(readdirSync(dirname(target))).toEqual([]);
  });

  it('is of one moment while another process writes', async () => {
    const path = emptyPlace();
    const log = await createLogbook(path);
    await log.append(entries(1, 3), '2026-01-01T00:00:00Z');
    const program = fileURLToPath(new URL('appending-child.ts', import.meta.url));
    const child = spawn(process.execPath, ['--import', 'tsx', program, path], {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    const sizes: number[] = [];
    for (let time = 0; time < 4; time += 1) {
      await once(child.stdout, 'data');
      const target = emptyPlace(`woods.backup-${time}`);
      const { head } = await backupLogbook(log, target);
      sizes.push(head.size);
      expect(await verifyLogbook(target)).toMatchObject({ ok: true, size: head.size, root: head.root });
    }
    const exited = once(child, 'exit');
    child.stdin.write('stop');
    expect(await exited).toEqual([0, null]);
    expect(sizes.every((size, index) => index === 0 || size > (sizes[index - 1] ?? 0))).toBe(true);
    const final = await log.head();
    expect(final.size).toBeGreaterThanOrEqual(sizes.at(-1) ?? 0);
    const backups = await log.lastBackup();
    expect(await verifyLogbook(log, backups ? { since: backups.head } : {})).toMatchObject({ ok: true });
    await log.close();
  });
});

describe('restoring', () => {
  async function withBackup(): Promise<{ path: string; target: string }> {
    const path = await soundLogbook();
    const target = emptyPlace('woods.backup');
    const log = await openLogbook(path);
    await backupLogbook(log, target);
    await log.close();
    return { path, target };
  }

  it('puts the same log in an empty place, where one can go on', async () => {
    const { path, target } = await withBackup();
    const place = emptyPlace('again.logbook');
    const home = emptyFolder();
    expect(await restoreLogbook(target, place, home)).toEqual({ head: await headOf(path) });
    const log = await openLogbook(place);
    expect(await log.append(entries(20, 20), noon)).toMatchObject([{ outcome: 'recorded', position: 11 }]);
    await log.close();
    expect(await verifyLogbook(place, { since: await headOf(path) })).toMatchObject({ ok: true, size: 12 });
    expect(await verifyLogbook(target)).toMatchObject({ ok: true, size: 11 });
  });

  it('refuses a place that is taken, and what does not verify', async () => {
    const { path, target } = await withBackup();
    const before = readFileSync(path);
    await expect(restoreLogbook(target, path, emptyFolder())).rejects.toMatchObject({ code: 'exists' });
    expect(readFileSync(path).equals(before)).toBe(true);
    const folder = emptyPlace('folder');
    mkdirSync(folder);
    await expect(restoreLogbook(target, folder, emptyFolder())).rejects.toMatchObject({ code: 'exists' });
    tamper(target, (database) => database.exec('DELETE FROM entry WHERE position = 10'));
    const place = emptyPlace('again.logbook');
    await expect(restoreLogbook(target, place, emptyFolder())).rejects.toThrow(/does not verify/);
    expect(readdirSync(dirname(place))).toEqual([]);
  });

  it('makes this machine a new device there, and says when it remembers more than came back', async () => {
    const { path, target } = await withBackup();
    const home = emptyFolder();
    const log = await openLogbook(path);
    await log.append(entries(20, 24), noon);
    const lost = await log.head();
    await log.close();
    remember(path, idOf(1), { device: deviceA, lastSeq: 16, lastHead: lost }, home);
    rmSync(path);
    expect(await restoreLogbook(target, path, home)).toEqual({ head: await headOf(path), ahead: lost });
    expect(recallDevice(path, idOf(1), home)).toBeUndefined();
    const fresh = rememberedDevice(path, idOf(1), () => 'a new one', home);
    expect(fresh).toEqual({ device: 'a new one', lastSeq: 0 });
  });
});
