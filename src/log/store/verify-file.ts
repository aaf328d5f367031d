// Verification of what is under the entries: the SQLite file, its tables and triggers, sequences per device.
import type { Database } from 'better-sqlite3';
import { evidenceByName } from './schema.ts';
import type { DeviceSequence, Notebook } from './verification.ts';

/** Whether everything is there that keeps the log from being changed, just as it was made. */
export function checkSchema(database: Database, notebook: Notebook): void {
  const found = new Map(
    database
      .prepare<[], { name: string; sql: string; type: string }>(
        'SELECT name, sql, type FROM sqlite_schema WHERE sql IS NOT NULL',
      )
      .all()
      .map((row) => [row.name, row]),
  );
  for (const [name, statement] of evidenceByName) {
    const sql = found.get(name)?.sql;
    if (sql === undefined) notebook.add('schema', `What guards the log is not whole: ${name} is missing.`);
    else if (sql !== statement)
      notebook.add('schema', `What guards the log is not whole: ${name} was changed.`);
  }
  for (const { name, type } of found.values()) {
    if (type === 'trigger' && !evidenceByName.has(name))
      notebook.add('schema', `The trigger ${name} is none of this program's; it could change entries.`);
  }
}

/** Gaps and repeats in the numbers that devices gave their entries: no fault of the file, worth knowing. */
export function deviceSequences(database: Database): DeviceSequence[] {
  const devices = database.prepare<[], { device: string; entries: number; numbers: number; last: number }>(
    `SELECT device, count(*) AS entries, count(DISTINCT seq) AS numbers, max(seq) AS last
     FROM entry GROUP BY device ORDER BY device`,
  );
  const numbers = database.prepare<[string], number>('SELECT seq FROM entry WHERE device = ? ORDER BY seq');
  return devices.all().map(({ device, entries, numbers: different, last }) => ({
    device,
    entries,
    last,
    ...(different === last && different === entries
      ? { missing: [], repeated: [] }
      : gaps(numbers.pluck().iterate(device), different < entries)),
  }));
}

const mostNumbers = 100;

/** @param repeats - whether there are any; else nothing more is to be found once enough are missing */
function gaps(numbers: Iterable<number>, repeats: boolean): { missing: number[]; repeated: number[] } {
  const missing: number[] = [];
  const repeated: number[] = [];
  let last = 0;
  for (const number of numbers) {
    if (number === last && repeated.length < mostNumbers && repeated.at(-1) !== number) repeated.push(number);
    for (let gap = last + 1; gap < number && missing.length < mostNumbers; gap += 1) missing.push(gap);
    last = number;
    if (!repeats && missing.length === mostNumbers) break;
  }
  return { missing, repeated };
}
