// What has to be true of a logbook after writers came to harm.
import { expect } from 'vitest';
import { openLogbook, verifyLogbook } from '../../../src/log/store/index.ts';
import { all } from '../made-up.ts';
import { batchOf } from './batches.ts';
import { acknowledgedIn, type Task } from './child.ts';

/**
 * Opens the logbook and looks: positions without gaps, every acknowledged batch, no half batch, nothing twice,
 * nothing that nobody wrote, and it verifies. Each writer goes through its batches in order from 0.
 *
 * @returns how many whole batches of each task are there
 */
export async function expectSound(path: string, tasks: readonly Task[]): Promise<number[]> {
  const log = await openLogbook(path);
  const stored = await all(log);
  await log.close();
  expect(stored.map(({ position }) => position)).toEqual(stored.map((_, index) => index));
  const bytesById = new Map(stored.map(({ id, bytes }) => [id, Buffer.from(bytes).toString()]));
  expect(bytesById.size).toBe(stored.length);

  const batches = tasks.map((task) => wholeBatches(new Set(bytesById.values()), task));
  const expected = tasks.reduce((sum, { size }, index) => sum + size * (batches[index] ?? 0), 0);
  expect(stored.length, 'entries of whole batches make up the log').toBe(expected);
  for (const [index, { acknowledged }] of tasks.entries()) {
    const last = acknowledgedIn(acknowledged).at(-1);
    const kept = batches[index] ?? 0;
    const promised = last === undefined ? 0 : last.number + 1;
    expect(kept, 'every acknowledged batch is there').toBeGreaterThanOrEqual(promised);
    expect(kept, 'at most one more was on its way').toBeLessThanOrEqual(promised + 1);
  }
  const { ok, problems, size } = await verifyLogbook(path);
  expect(problems).toEqual([]);
  expect(ok).toBe(true);
  expect(size).toBe(stored.length);
  return batches;
}

/** How many batches of a writer are there whole, from its first one on. */
function wholeBatches(there: ReadonlySet<string>, { writer, size }: Task): number {
  for (let number = 0; ; number += 1) {
    const batch = batchOf(writer, number, size);
    if (!batch.every(({ bytes }) => there.has(Buffer.from(bytes).toString()))) return number;
  }
}
