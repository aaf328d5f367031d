// A program that the tests start, kill and starve: it appends batch after batch to a logbook and writes down
// each one as soon as it is acknowledged. Whatever it wrote down must be in the logbook for ever after.
//   writer.ts LOGBOOK ACKNOWLEDGED WRITER SIZE FIRST COUNT
import { appendFileSync, writeSync } from 'node:fs';
import { LogbookError, openLogbook } from '../../../src/log/store/index.ts';
import { noon } from '../invented.ts';
import { batchOf } from './batches.ts';

const [path = '', acknowledged = '', ...rest] = process.argv.slice(2);
const [writer = 0, size = 1, first = 0, count = 1] = rest.map(Number);

async function write(): Promise<void> {
  const log = await openLogbook(path);
  for (let number = first; number < first + count; number += 1) {
    const receipts = await log.append(batchOf(writer, number, size), noon);
    const outcomes = [...new Set(receipts.map(({ outcome }) => outcome))].join('+');
    appendFileSync(acknowledged, `${number} ${outcomes}\n`);
    if (number === first) writeSync(1, 'writing\n');
  }
  await log.close();
}

write().catch((error: unknown) => {
  if (!(error instanceof LogbookError)) throw error;
  writeSync(1, `${error.code}\n`);
  process.exitCode = 3;
});
