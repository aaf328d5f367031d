// Finding entries by keys. The keys are kept in the file as a cache: made on the first question, caught up on
// the next ones, made anew when their version changes, and no evidence of anything. Where nothing may be
// written they are kept in memory.
import { type OpenFile, write } from './database.ts';
import type { Lookup, Stored } from './port.ts';
import { type EntryRow, entryColumns, storedOf } from './rows.ts';

type KeysOf = (stored: Stored) => readonly string[];
/** Keys and the positions of their entries, caught up with the log at the time of the question. */
type Index = Readonly<{ caughtUp(): (key: string) => readonly number[] }>;

export function openLookup(file: OpenFile, keysOf: KeysOf, version: string): Lookup {
  const index = file.readOnly ? indexInMemory(file, keysOf) : indexInFile(file, keysOf, version);
  const entry = file.database.prepare<[number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position = ?`,
  );
  const positionsOf = (keys: readonly string[]): number[] =>
    [...new Set(keys.flatMap(index.caughtUp()))].sort((a, b) => a - b);
  return {
    positions: async (keys) => positionsOf(keys),
    entries: async (keys) =>
      positionsOf(keys).flatMap((position) => {
        const row = entry.get(position);
        return row ? [storedOf(row)] : [];
      }),
  };
}

function entriesFrom({ database }: OpenFile): (position: number) => Iterable<EntryRow> {
  const rows = database.prepare<[number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position >= ? ORDER BY position`,
  );
  return (position) => rows.iterate(position);
}

function indexInMemory(file: OpenFile, keysOf: KeysOf): Index {
  const rows = entriesFrom(file);
  const positions = new Map<string, number[]>();
  let size = 0;
  return {
    caughtUp() {
      for (const row of rows(size)) {
        for (const key of new Set(keysOf(storedOf(row)))) {
          const list = positions.get(key);
          if (list) list.push(row.position);
          else positions.set(key, [row.position]);
        }
        size = row.position + 1;
      }
      return (key) => positions.get(key) ?? [];
    },
  };
}

function indexInFile(file: OpenFile, keysOf: KeysOf, version: string): Index {
  const { database } = file;
  const state = database.prepare<[], { version: string; size: number }>(
    'SELECT version, size FROM cache_state',
  );
  const logSize = database.prepare<[], { size: number }>('SELECT size FROM head');
  const find = database.prepare<[string], number>('SELECT position FROM cache_key WHERE key = ?').pluck();
  const keep = database.prepare<[string, number]>('INSERT OR IGNORE INTO cache_key VALUES (?, ?)');
  const empty = database.prepare('DELETE FROM cache_key');
  const noteState = database.prepare<[string, number]>('INSERT OR REPLACE INTO cache_state VALUES (1, ?, ?)');
  // A statement that is iterated over may not write in between, so rows are taken page by page.
  const page = database.prepare<[number, number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position >= ? AND position < ? ORDER BY position`,
  );

  const done = (size: number): number => {
    const now = state.get();
    return now === undefined || now.version !== version || now.size > size ? -1 : now.size;
  };
  const catchUp = (): void => {
    const size = logSize.get()?.size ?? 0;
    const from = done(size);
    if (from === -1) empty.run();
    for (let start = Math.max(0, from); start < size; start += 1000) {
      for (const row of page.all(start, Math.min(size, start + 1000))) {
        for (const key of keysOf(storedOf(row))) keep.run(key, row.position);
      }
    }
    noteState.run(version, size);
  };
  return {
    caughtUp() {
      const size = logSize.get()?.size ?? 0;
      if (done(size) !== size) write(file, catchUp);
      return (key) => find.all(key);
    },
  };
}
