// A disk that fails at one call, or from one call on: every write, flush and cutting of a file that an opening,
// some appends and a closing make is made to fail in turn, by strace.
import { appendFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createLogbook, openLogbook } from '../../../src/log/store/index.ts';
import { needs } from '../../needs.ts';
import { emptyFolder, noon } from '../made-up.ts';
import { expectSound } from './aftermath.ts';
import { batchOf } from './batches.ts';
import { acknowledgedIn, type Task, writers } from './child.ts';

const startWriter = writers();
const calls = ['pwrite64', 'fsync', 'fdatasync', 'ftruncate'] as const;
type Call = (typeof calls)[number];

const size = 3;
const batches = 6;
/** Runs at a time; each is mostly waiting for strace. */
const lanes = 3;

async function freshTask(): Promise<Task> {
  const folder = emptyFolder();
  const path = join(folder, 'woods.logbook');
  const log = await createLogbook(path);
  await log.append(batchOf(0, 0, size), noon);
  await log.close();
  return { path, acknowledged: join(folder, 'acknowledged'), writer: 0, size, first: 0, count: batches };
}

/** Calls that a run makes when nothing fails. */
async function countCalls(): Promise<Map<Call, number>> {
  const task = await freshTask();
  const file = `${task.path}.calls`;
  const strace = ['strace', '-o', file, '-e', `trace=${calls.join(',')}`];
  expect(await startWriter(task, strace).ended).toMatchObject({ code: 0, errors: '' });
  const lines = readFileSync(file, 'utf8').split('\n');
  return new Map(calls.map((call) => [call, lines.filter((line) => line.startsWith(`${call}(`)).length]));
}

type Fault = Readonly<{ call: Call; when: string; error: 'EIO' | 'ENOSPC' }>;

describe.skipIf(!needs('strace'))('a disk that fails', () => {
  test('at any write, flush or cut: what was acknowledged stays, the rest is refused with a reason', async () => {
    const counted = await countCalls();
    expect(counted.get('pwrite64')).toBeGreaterThan(batches * 2);
    const faults = [...counted].flatMap(([call, count]) =>
      Array.from({ length: count }, (_, index) => faultsAt(call, index + 1)).flat(),
    );
    const codes = new Set<string>();
    const next = faults.values();
    await Promise.all(
      Array.from({ length: lanes }, async () => {
        for (const fault of next) codes.add(await suffer(fault));
      }),
    );
    // Lengthening the shared memory beside the log, SQLite does not tell an error from want of room.
    expect(codes).toEqual(
      new Set(['EIO input-output', 'EIO full', 'EIO unnoticed', 'ENOSPC full', 'ENOSPC unnoticed']),
    );
  }, 300_000);
});

/** A bad block fails once; a full disk stays full. */
function faultsAt(call: Call, number: number): Fault[] {
  const fails: Fault[] = [{ call, when: `${number}`, error: 'EIO' }];
  if (call === 'pwrite64') fails.push({ call, when: `${number}+`, error: 'ENOSPC' });
  return fails;
}

async function suffer({ call, when, error }: Fault): Promise<string> {
  const task = await freshTask();
  const fault = `${error} at ${call} ${when}`;
  const strace = [
    'strace',
    '-o',
    '/dev/null',
    '-e',
    `trace=${call}`,
    '-e',
    `inject=${call}:error=${error}:when=${when}`,
  ];
  const { code, said, errors } = await startWriter(task, strace).ended;
  expect(errors, fault).toBe('');
  const [kept] = await expectSound(task.path, [task]);
  const done = acknowledgedIn(task.acknowledged).length;
  const reason = said.split('\n').at(-1) ?? '';
  if (code === 0) {
    // A checkpoint that fails is tried again later; nothing in the log depends on it.
    expect(kept, fault).toBe(batches);
    return `${error} unnoticed`;
  }
  expect(code, fault).toBe(3);

  // The disk is mended, and the same batches are recorded again from the first one that was not acknowledged.
  const log = await openLogbook(task.path);
  for (let number = done; number < batches; number += 1) {
    await log.append(batchOf(0, number, size), noon);
    appendFileSync(task.acknowledged, `${number} again\n`);
  }
  await log.close();
  expect(await expectSound(task.path, [task]), fault).toEqual([batches]);
  return `${error} ${reason}`;
}
