// A disk that is really full: a small file system of its own, which takes root to mount.
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { createLogbook } from '../../../src/log/store/index.ts';
import { needs } from '../../needs.ts';
import { emptyFolder } from '../made-up.ts';
import { expectSound } from './aftermath.ts';
import { acknowledgedIn, type Task, writers } from './child.ts';

const startWriter = writers();
const isRoot = process.getuid?.() === 0;
if (!isRoot && process.env.CI === 'true')
  throw new Error('With CI=true no test may be skipped; mounting a small disk takes root.');

describe.skipIf(!isRoot || !needs('mount', 'umount'))(
  'a full disk (skipped unless root, who may mount one)',
  () => {
    test('refuses with its own sentence, keeps what it acknowledged, and goes on once there is room', async () => {
      const folder = emptyFolder();
      const disk = join(folder, 'disk');
      mkdirSync(disk);
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'none', disk]);
      onTestFinished(() => void execFileSync('umount', [disk]));
      const ballast = join(disk, 'ballast');
      writeFileSync(ballast, Buffer.alloc(400_000));
      const path = join(disk, 'woods.logbook');
      await (await createLogbook(path)).close();
      const acknowledged = join(folder, 'acknowledged');
      const task: Task = { path, acknowledged, writer: 0, size: 5, first: 0, count: 10_000 };
      expect(await startWriter(task).ended).toEqual({
        code: 3,
        signal: null,
        said: 'writing\nfull',
        errors: '',
      });
      const done = acknowledgedIn(acknowledged).length;
      expect(done).toBeGreaterThan(0);

      rmSync(ballast);
      expect(await expectSound(path, [task])).toEqual([done]);
      const rest = { ...task, first: done, count: 10 };
      expect(await startWriter(rest).ended).toMatchObject({ code: 0, errors: '' });
      expect(await expectSound(path, [task])).toEqual([done + 10]);
    });
  },
);
