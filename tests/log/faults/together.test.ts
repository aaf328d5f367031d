// Two programs write the same logbook: neither loses anything, and the slower one waits its turn.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { openFile, write } from '../../../src/log/store/database.ts';
import { createLogbook, LogbookError } from '../../../src/log/store/index.ts';
import { emptyFolder } from '../made-up.ts';
import { expectSound } from './aftermath.ts';
import { acknowledgedIn, type Task, writers } from './child.ts';

const startWriter = writers();

async function tasksOn(count: number, batches: number): Promise<Task[]> {
  const folder = emptyFolder();
  const path = join(folder, 'woods.logbook');
  await (await createLogbook(path)).close();
  return Array.from({ length: count }, (_, writer) => ({
    path,
    acknowledged: join(folder, `acknowledged-${writer}`),
    writer,
    size: 2 + writer,
    first: 0,
    count: batches,
  }));
}

test('two programs that write at once both get all their entries in', async () => {
  const tasks = await tasksOn(2, 300);
  const ends = await Promise.all(tasks.map((task) => startWriter(task).ended));
  expect(ends.map(({ code, errors }) => [code, errors])).toEqual([
    [0, ''],
    [0, ''],
  ]);
  expect(await expectSound(tasks[0]?.path ?? '', tasks)).toEqual([300, 300]);
  const outcomes = tasks.flatMap((task) => acknowledgedIn(task.acknowledged).map((line) => line.outcomes));
  expect(new Set(outcomes)).toEqual(new Set(['recorded']));
});

test('a program waits while another one writes, and then goes on', async () => {
  const [task] = await tasksOn(1, 5);
  if (!task) throw new Error('a task was asked for');
  const other = new Sqlite(task.path);
  other.exec('BEGIN IMMEDIATE');
  const { ended } = startWriter(task);
  await setTimeout(500);
  expect(existsSync(task.acknowledged), 'nothing is acknowledged while another one writes').toBe(false);
  other.exec('ROLLBACK');
  other.close();
  expect(await ended).toMatchObject({ code: 0, errors: '' });
  expect(await expectSound(task.path, [task])).toEqual([5]);
});

test('a program that waits too long says that the logbook is locked, and nothing is recorded', async () => {
  const [task] = await tasksOn(1, 1);
  if (!task) throw new Error('a task was asked for');
  const file = openFile(task.path, false);
  const other = new Sqlite(task.path);
  other.exec('BEGIN IMMEDIATE');
  let thrown: unknown;
  try {
    write(file, () => expect.unreachable(), 20);
  } catch (error) {
    thrown = error;
  }
  other.exec('ROLLBACK');
  other.close();
  expect(thrown).toBeInstanceOf(LogbookError);
  expect(thrown).toMatchObject({ code: 'locked', path: task.path });
  expect(String(thrown)).toContain('Close it or try again');
  // As long as it waits for everything else; the next one gets through.
  expect(file.database.pragma('busy_timeout', { simple: true })).toBe(10_000);
  expect(write(file, () => 'written', 20)).toBe('written');
  file.close();
  expect(await expectSound(task.path, [task])).toEqual([0]);
});
