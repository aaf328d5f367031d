// Whether the disk is told to keep what is acknowledged. A kill cannot show it, since the system still holds
// what a killed program wrote; counting the calls can. A file in WAL mode that is opened again is the trap: SQLite
// as built for Node would flush at checkpoints only (SQLITE_DEFAULT_WAL_SYNCHRONOUS=1).
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createLogbook, openLogbook } from '../../../src/log/store/index.ts';
import { needs } from '../../needs.ts';
import { emptyFolder, noon } from '../made-up.ts';
import { expectSound } from './aftermath.ts';
import { batchOf } from './batches.ts';
import { type Task, writers } from './child.ts';

const startWriter = writers();

describe.skipIf(!needs('strace'))('what is acknowledged is flushed first', () => {
  test('every append to a file that was opened again flushes the log to the disk', async () => {
    const folder = emptyFolder();
    const path = join(folder, 'woods.logbook');
    const log = await createLogbook(path);
    await log.append(batchOf(0, 0, 1), noon);
    await log.close();
    const again = await openLogbook(path);
    await again.append(batchOf(0, 1, 1), noon);
    await again.close();

    const acknowledged = join(folder, 'acknowledged');
    const task: Task = { path, acknowledged, writer: 0, size: 1, first: 2, count: 40 };
    const calls = join(folder, 'calls');
    const strace = ['strace', '-y', '-o', calls, '-e', 'trace=fsync,fdatasync,openat,write'];
    expect(await startWriter(task, strace).ended).toMatchObject({ code: 0, errors: '' });
    await expectSound(path, [task]);
    expect(flushesBetween(readFileSync(calls, 'utf8'), path, acknowledged)).toEqual(
      Array.from({ length: 40 }, () => true),
    );
  });
});

/** For each acknowledgement, whether the write-ahead log was flushed since the one before it. */
function flushesBetween(calls: string, path: string, acknowledged: string): boolean[] {
  const found: boolean[] = [];
  let flushed = false;
  for (const line of calls.split('\n')) {
    if (/^f(?:data)?sync\(/.test(line) && line.includes(`<${path}-wal>`) && line.endsWith('= 0'))
      flushed = true;
    if (line.startsWith('write(') && line.includes(`<${acknowledged}>`)) {
      found.push(flushed);
      flushed = false;
    }
  }
  return found;
}
