// What the machine remembers of a logbook, outside of it: readable for its owner alone, one for each place, and
// never set back.
import { copyFileSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  createLogbook,
  forgetDevice,
  recallDevice,
  remember,
  rememberedDevice,
} from '../../src/log/store/index.ts';
import { deviceA, deviceB, emptyFolder, emptyPlace, idOf, person } from './made-up.ts';

const logbook = idOf(1);
const headOfSize = (size: number) => ({ size, root: `${size}`.padStart(64, '0') });

async function place(): Promise<{ path: string; home: string }> {
  const path = emptyPlace();
  await (await createLogbook(path)).close();
  return { path, home: join(emptyFolder(), 'state') };
}

const memoryFiles = (home: string): string[] =>
  readdirSync(join(home, 'devices')).map((name) => join(home, 'devices', name));

describe('the memory of a device', () => {
  it('is made once and kept, for its owner alone', async () => {
    const { path, home } = await place();
    expect(recallDevice(path, logbook, home)).toBeUndefined();
    expect(rememberedDevice(path, logbook, () => deviceA, home)).toEqual({ device: deviceA, lastSeq: 0 });
    expect(rememberedDevice(path, logbook, () => deviceB, home).device).toBe(deviceA);
    remember(path, logbook, { device: deviceA, person, lastSeq: 3, lastHead: headOfSize(4) }, home);
    expect(recallDevice(path, logbook, home)).toEqual({
      device: deviceA,
      person,
      lastSeq: 3,
      lastHead: headOfSize(4),
    });
    const files = memoryFiles(home);
    expect(files).toHaveLength(1);
    expect(statSync(files[0] ?? '').mode & 0o777).toBe(0o600);
    expect(statSync(join(home, 'devices')).mode & 0o777).toBe(0o700);
    expect(statSync(path).isFile() && dirname(path) !== home).toBe(true);
  });

  it('knows a copy elsewhere as another device, and the same file by another way as the same', async () => {
    const { path, home } = await place();
    rememberedDevice(path, logbook, () => deviceA, home);
    const copy = emptyPlace('copy.logbook');
    copyFileSync(path, copy);
    expect(recallDevice(copy, logbook, home)).toBeUndefined();
    expect(rememberedDevice(copy, logbook, () => deviceB, home).device).toBe(deviceB);
    const link = emptyPlace('link.logbook');
    symlinkSync(path, link);
    expect(recallDevice(link, logbook, home)?.device).toBe(deviceA);
    expect(recallDevice(path, idOf(2), home)).toBeUndefined();
  });

  it('never goes back in numbers or heads, but another device begins anew', async () => {
    const { path, home } = await place();
    remember(path, logbook, { device: deviceA, lastSeq: 9, lastHead: headOfSize(9) }, home);
    remember(path, logbook, { device: deviceA, lastSeq: 7, lastHead: headOfSize(5) }, home);
    expect(recallDevice(path, logbook, home)).toEqual({
      device: deviceA,
      lastSeq: 9,
      lastHead: headOfSize(9),
    });
    remember(path, logbook, { device: deviceA, lastSeq: 10 }, home);
    expect(recallDevice(path, logbook, home)?.lastHead).toEqual(headOfSize(9));
    remember(path, logbook, { device: deviceB, lastSeq: 1, lastHead: headOfSize(3) }, home);
    expect(recallDevice(path, logbook, home)).toEqual({
      device: deviceB,
      lastSeq: 1,
      lastHead: headOfSize(3),
    });
    forgetDevice(path, logbook, home);
    expect(recallDevice(path, logbook, home)).toBeUndefined();
    forgetDevice(path, logbook, home);
  });

  it('that is damaged is not taken for no memory', async () => {
    const { path, home } = await place();
    remember(path, logbook, { device: deviceA, lastSeq: 9, lastHead: headOfSize(9) }, home);
    const [file = ''] = memoryFiles(home);
    const whole = readFileSync(file, 'utf8');
    const damaged = [
      '',
      whole.slice(0, 40),
      'null',
      '[]',
      '{}',
      whole.replace(/"9:0/, '"9;0'),
      whole.replace(': 9', ': 0.5'),
    ];
    for (const text of damaged) {
      writeFileSync(file, text);
      expect(() => recallDevice(path, logbook, home), text).toThrow(/damaged. Move the file away/);
    }
    writeFileSync(file, whole);
    expect(recallDevice(path, logbook, home)?.lastSeq).toBe(9);
  });

  it('is looked for where the environment says', async () => {
    const { path } = await place();
    const [own, state] = [emptyFolder(), emptyFolder()];
    const before = { ...process.env };
    try {
      process.env.XDG_STATE_HOME = state;
      delete process.env.GAPLEDGER_HOME;
      rememberedDevice(path, logbook, () => deviceA);
      expect(memoryFiles(join(state, 'gapledger'))).toHaveLength(1);
      process.env.GAPLEDGER_HOME = own;
      expect(recallDevice(path, logbook)).toBeUndefined();
      rememberedDevice(path, logbook, () => deviceB);
      expect(memoryFiles(own)).toHaveLength(1);
    } finally {
      process.env = before;
    }
  });
});
