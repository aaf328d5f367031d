// The file of paired devices: private, whole at every moment, and read again when another process changed it.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { hashOfToken, newToken, type PairedDevice, registryOf } from '../../../src/server/access/index.ts';

const logbook = '01970000-0000-7000-8000-000000000001';
const at = '2026-03-20T14:00:00.000Z';
let home: string;
let path: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'gapledger-paired-'));
  path = join(home, 'woods.logbook');
  writeFileSync(path, '');
  onTestFinished(() => rmSync(home, { recursive: true }));
});

const registry = () => registryOf(path, logbook, home);
const folder = () => join(home, 'paired');
const file = () => join(folder(), readdirSync(folder())[0] ?? '');
function phone(device: string, token = newToken()): PairedDevice {
  return { device, label: `phone ${device}`, role: 'recorder', tokenHash: hashOfToken(token), pairedAt: at };
}

describe('the paired devices of a logbook', () => {
  it('are none before one is paired, and no file is made by looking', () => {
    expect(registry().all()).toEqual([]);
    expect(registry().byToken(newToken())).toBeUndefined();
    expect(existsSync(folder())).toBe(false);
  });

  it('are found by their token, of which only the hash is kept, in a file for nobody else', () => {
    const token = newToken();
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    registry().add(phone('1', token));
    expect(registry().byToken(token)).toMatchObject({ device: '1', role: 'recorder' });
    for (const other of [newToken(), '', `${token} `, token.slice(1)])
      expect(registry().byToken(other)).toBeUndefined();
    expect(readFileSync(file(), 'utf8')).not.toContain(token);
    expect(statSync(file()).mode & 0o777).toBe(0o600);
    expect(statSync(folder()).mode & 0o777).toBe(0o700);
  });

  it('are revoked for a registry that is open already, at once', () => {
    const token = newToken();
    const [server, command] = [registry(), registry()];
    server.add(phone('1', token));
    expect(server.byToken(token)?.revokedAt).toBeUndefined();
    expect(command.revoke('1', at)).toBe(true);
    expect(server.byToken(token)?.revokedAt).toBe(at);
    expect(command.revoke('2', at)).toBe(false);
  });

  it('keep a revocation when the server notes right after it that the device was here', () => {
    const token = newToken();
    const server = registry();
    server.add(phone('1', token));
    server.byToken(token);
    registry().revoke('1', at);
    server.seen('1', '2026-03-20T14:05:00.000Z');
    expect(registry().all()).toMatchObject([{ revokedAt: at, lastSeenAt: '2026-03-20T14:05:00.000Z' }]);
  });

  it('replace a device that is paired anew: its earlier token counts no more', () => {
    const [first, second] = [newToken(), newToken()];
    registry().add(phone('1', first));
    registry().revoke('1', at);
    registry().add(phone('1', second));
    expect(registry().byToken(first)).toBeUndefined();
    expect(registry().byToken(second)).toMatchObject({ device: '1' });
    expect(registry().all()).toHaveLength(1);
  });

  it('belong to the logbook at its place: a copy elsewhere has none', () => {
    registry().add(phone('1'));
    const copy = join(home, 'copy.logbook');
    writeFileSync(copy, '');
    expect(registryOf(copy, logbook, home).all()).toEqual([]);
    expect(registryOf(path, '01970000-0000-7000-8000-000000000002', home).all()).toEqual([]);
  });

  it.each(['', '{', '[]', '{"devices":[{"device":"1"}]}', '{"devices":[],"more":1}'])(
    'let nobody in when their file is damaged: %j',
    (text) => {
      const token = newToken();
      registry().add(phone('1', token));
      writeFileSync(file(), text);
      expect(() => registry().byToken(token)).toThrow(/list of paired devices is damaged.*paired anew/);
    },
  );

  it('lose none when several processes add at the same time', async () => {
    const script = `
      import { registryOf } from ${JSON.stringify(join(import.meta.dirname, '../../../src/server/access/index.ts'))};
      const registry = registryOf(${JSON.stringify(path)}, ${JSON.stringify(logbook)}, ${JSON.stringify(home)});
      for (let count = 0; count < 10; count += 1)
        registry.add({ device: process.argv[1] + count, label: 'x', role: 'reader', tokenHash: '0'.repeat(64), pairedAt: '${at}' });`;
    const child = (name: string) =>
      new Promise<number | null>((resolve, reject) => {
        const started = spawn(
          process.execPath,
          ['--import', 'tsx', '--input-type=module', '-e', script, name],
          { stdio: 'inherit' },
        );
        started.on('error', reject);
        started.on('close', resolve);
      });
    expect(await Promise.all(['a', 'b', 'c'].map(child))).toEqual([0, 0, 0]);
    expect(registry().all()).toHaveLength(30);
    expect(readdirSync(folder())).toHaveLength(1);
  });
});
