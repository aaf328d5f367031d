// Writers that are killed in the middle of it, as by a flat battery: what was acknowledged stays, a batch is
// whole or not there, and doing it again adds nothing twice. SIGKILL cannot be caught; the power stays on, so
// whether the disk was told to keep it is shown in flushed.test.ts.
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { createLogbook } from '../../../src/log/store/index.ts';
import { emptyFolder } from '../made-up.ts';
import { expectSound } from './aftermath.ts';
import { acknowledgedIn, type Task, writers } from './child.ts';

const startWriter = writers();
const kills = 102;
const together = 3;
/** Longest wait of a round from the first acknowledged batch to the kill, in milliseconds. */
const longestWait = 60;

test(`${kills} kills of ${together} writers of one logbook lose nothing that was acknowledged`, async () => {
  const folder = emptyFolder();
  const path = join(folder, 'woods.logbook');
  await (await createLogbook(path)).close();
  let tasks = Array.from(
    { length: together },
    (_, writer): Task => ({
      path,
      acknowledged: join(folder, `acknowledged-${writer}`),
      writer,
      size: [1, 3, 20][writer] ?? 1,
      first: 0,
      count: 100_000,
    }),
  );
  let unheard = 0;
  for (let killed = 0; killed < kills; killed += together) {
    const signals = await Promise.all(tasks.map(killedSoon));
    expect(signals).toEqual(tasks.map(() => 'SIGKILL'));
    const batches = await expectSound(path, tasks);
    // Every writer starts again at the first batch that it heard nothing of, whether or not it is there.
    tasks = tasks.map((task) => ({ ...task, first: promised(task) }));
    unheard += tasks.filter((task, index) => (batches[index] ?? 0) > task.first).length;
  }
  // Writers retried what was there already, and were told so.
  const retried = tasks.flatMap((task) => acknowledgedIn(task.acknowledged).map(({ outcomes }) => outcomes));
  expect(new Set(retried)).toEqual(new Set(['recorded', 'already-recorded']));
  expect(unheard).toBeGreaterThan(0);
}, 300_000);

function promised({ acknowledged }: Task): number {
  return (acknowledgedIn(acknowledged).at(-1)?.number ?? -1) + 1;
}

/** Most are killed while they write, some while they open. */
async function killedSoon(task: Task): Promise<NodeJS.Signals | null> {
  const { child, writing, ended } = startWriter(task);
  if (Math.random() < 0.1) await setTimeout(Math.random() * 150);
  else await writing;
  await setTimeout(Math.random() * longestWait);
  child.kill('SIGKILL');
  const { signal, errors } = await ended;
  expect(errors).toBe('');
  return signal;
}
