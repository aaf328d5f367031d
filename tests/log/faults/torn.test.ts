// A write-ahead log that lost its end, as after a power cut on a disk that lies: the logbook opens with a strict
// beginning of what was recorded. That something is missing can only be seen with a head kept elsewhere.
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { TreeHead } from '../../../src/log/entry/index.ts';
import { createLogbook, openLogbook, verifyLogbook } from '../../../src/log/store/index.ts';
import { all, emptyFolder, noon } from '../made-up.ts';
import { batchOf } from './batches.ts';

const inFile = 4;
const inWal = 12;
const size = 3;

test('a write-ahead log cut at any byte leaves a beginning of the log, whole batches only', async () => {
  const folder = emptyFolder();
  const path = join(folder, 'woods.logbook');
  const log = await createLogbook(path);
  for (let number = 0; number < inFile; number += 1) await log.append(batchOf(0, number, size), noon);
  await log.close();
  const again = await openLogbook(path);
  const heads: TreeHead[] = [await again.head()];
  for (let number = inFile; number < inFile + inWal; number += 1) {
    await again.append(batchOf(0, number, size), noon);
    heads.push(await again.head());
  }
  const last = heads.at(-1) ?? { size: 0, root: '' };
  const whole = await all(again);
  const wal = readFileSync(`${path}-wal`);
  const main = join(folder, 'main');
  copyFileSync(path, main);
  await again.close();

  const lengths = new Set<number>();
  let number = 0;
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 0, max: wal.length }), async (length) => {
      number += 1;
      const torn = join(folder, `torn-${number}.logbook`);
      copyFileSync(main, torn);
      writeFileSync(`${torn}-wal`, wal.subarray(0, length));
      const opened = await openLogbook(torn);
      const [stored, head] = [await all(opened), await opened.head()];
      await opened.close();
      expect(stored).toEqual(whole.slice(0, stored.length));
      expect(heads).toContainEqual(head);
      expect(stored.length).toBe(head.size);
      lengths.add(head.size);
      expect((await verifyLogbook(torn)).problems).toEqual([]);
      for (const kind of ['since', 'remembered'] as const) {
        const { ok, problems } = await verifyLogbook(torn, { [kind]: last });
        expect(ok).toBe(head.size === last.size);
        expect(problems.map(({ what }) => what)).toEqual(ok ? [] : [kind]);
      }
    }),
    { numRuns: 150, examples: [[0], [wal.length]] },
  );
  expect(lengths.size, 'cuts at many places came up').toBeGreaterThan(inWal / 2);
});
