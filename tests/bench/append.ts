// Durable appends, beside a bare loop that inserts the same rows with the same pragmas: id, device, number and bytes
// in a table with the same keys, with no reading, no hash, no tree, no trigger.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { readEnvelope } from '../../src/log/entry/index.ts';
import { createLogbook } from '../../src/log/store/index.ts';
import { noon } from '../log/invented.ts';
import { type BenchRow, interleaved, type Work } from './row.ts';
import { woods } from './woods.ts';

const goal = 0.5;
const bareTable = `
  CREATE TABLE entry (
    position INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, device TEXT NOT NULL, seq INTEGER NOT NULL, bytes BLOB NOT NULL
  ) STRICT;
  CREATE INDEX entry_of_device ON entry (device, seq)`;

/** @param folder - on the disk whose speed counts */
export async function benchAppend(folder: string): Promise<BenchRow[]> {
  return [await rowOf(folder, 1, 1500), await rowOf(folder, 50, 15_000)];
}

async function rowOf(folder: string, batch: number, count: number): Promise<BenchRow> {
  const entries = woods(count);
  const batches = Array.from({ length: count / batch }, (_, index) =>
    entries.slice(index * batch, (index + 1) * batch),
  );
  const rows = batches.map((one) => one.map(({ bytes }) => ({ ...readEnvelope(bytes), bytes })));
  let number = 0;
  const fresh = (): string => {
    for (const ending of ['', '-wal', '-shm'])
      rmSync(join(folder, `append-${number}${ending}`), { force: true });
    number += 1;
    return join(folder, `append-${number}`);
  };
  const ours: Work = async () => {
    const log = await createLogbook(fresh());
    return async () => {
      for (const one of batches) await log.append(one, noon);
      await log.close();
    };
  };
  const bare: Work = () => {
    const database = new Sqlite(fresh());
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    database.pragma('secure_delete = ON');
    database.exec(bareTable);
    const insert = database.prepare('INSERT INTO entry (id, device, seq, bytes) VALUES (?, ?, ?, ?)');
    return () => {
      for (const one of rows) {
        database.exec('BEGIN IMMEDIATE');
        for (const { id, device, seq, bytes } of one) insert.run(id, device, seq, bytes);
        database.exec('COMMIT');
      }
      database.close();
    };
  };
  const seconds = await interleaved({ ours, bare }, 5);
  fresh();
  const [measured, baseline] = [count / seconds.ours, count / seconds.bare];
  return {
    what: batch === 1 ? 'durable appends one by one' : `durable appends in batches of ${batch}`,
    measured,
    unit: 'entries/s',
    against: 'bare SQLite inserts of the same rows, same pragmas',
    baseline,
    ratio: measured / baseline,
    goal: `ratio ≥ ${goal}`,
    met: measured / baseline >= goal,
  };
}
