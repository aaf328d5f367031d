// A process that appends entries to a logbook one by one until it is told to stop; says so on every tenth.
import { randomUUID } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import { writeEntry } from '../../src/log/entry/index.ts';
import { openLogbook } from '../../src/log/store/index.ts';

const [path = ''] = process.argv.slice(2);
const device = randomUUID();
let stopped = false;
process.stdin.once('data', () => {
  stopped = true;
});
const log = await openLogbook(path);
for (let seq = 1; !stopped; seq += 1) {
  const bytes = writeEntry({
    id: `0195f000-0000-7000-9000-${seq.toString(16).padStart(12, '0')}`,
    type: 'note-written',
    v: 1,
    happenedAt: { at: '2026-03-14T12:00:00-05:00', precision: 'minute' },
    recordedAt: '2026-03-14T12:00:05-05:00',
    by: device,
    device,
    seq,
    body: { text: `note ${seq}` },
  });
  const [receipt] = await log.append([{ bytes }], new Date().toISOString());
  if (receipt?.outcome !== 'recorded') throw new Error(JSON.stringify(receipt));
  if (seq % 10 === 0) process.stdout.write(`${seq}\n`);
  await setTimeout(2);
}
await log.close();
process.exit(0);
