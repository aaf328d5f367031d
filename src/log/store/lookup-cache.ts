// The keys of entries as they are kept in the file: made on the first question, caught up on the next ones, made
// anew when the way of making them changes. Emptied or dropped, they are simply made again.
import type { Database, Statement } from 'better-sqlite3';
import { type OpenFile, write } from './database.ts';
import type { Stored } from './port.ts';
import { type EntryRow, entryColumns, storedOf } from './rows.ts';
import { cacheTable } from './schema.ts';

/** Draws the keys out of an entry. */
export type KeysOf = (stored: Stored) => readonly string[];
/** Positions of the entries that have any of these keys, in any order, some perhaps twice. */
export type KeyIndex = (keys: readonly string[]) => number[];

/** Entries that are read at once. */
const pageLength = 1000;
/** How long a question waits for somebody who writes, in milliseconds; a scan answers sooner than most. */
const patience = 500;

/** An index in the file. A question throws what SQLite throws when the cache cannot be had. */
export function openCachedKeys(file: OpenFile, keysOf: KeysOf, version: string): KeyIndex {
  const { database } = file;
  const isThere = database.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'cache'");
  const logSize = database.prepare<[], number>('SELECT size FROM head').pluck();
  // A statement that is iterated over may not write in between, so entries are taken page by page.
  const page = database.prepare<[number, number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position >= ? AND position < ? ORDER BY position`,
  );
  /** Key of the row that says how far the keys go; no key of an entry begins with an end of line. */
  const extent = `\n${version}`;
  let opened: CacheTable | undefined;

  return (keys) => {
    if (!isCaughtUp()) write(file, catchUp, patience);
    return keys.flatMap((key) => table().find.all(key));
  };

  function isCaughtUp(): boolean {
    return isThere.get() !== undefined && table().find.get(extent) === logSize.get();
  }

  function catchUp(): void {
    database.exec(cacheTable);
    const { find, keep, forget, empty } = table();
    const size = logSize.get() ?? 0;
    const done = find.get(extent) ?? Number.POSITIVE_INFINITY;
    if (done > size) empty.run();
    else forget.run(extent);
    for (let start = done > size ? 0 : done; start < size; start += pageLength) {
      for (const row of page.all(start, Math.min(size, start + pageLength))) {
        for (const key of keysOf(storedOf(row))) keep.run(key, row.position);
      }
    }
    keep.run(extent, size);
  }

  function table(): CacheTable {
    opened ??= openTable(database);
    return opened;
  }
}

type CacheTable = Readonly<{
  find: Statement<[string], number>;
  keep: Statement<[string, number]>;
  forget: Statement<[string]>;
  empty: Statement<[]>;
}>;

function openTable(database: Database): CacheTable {
  return {
    find: database.prepare<[string], number>('SELECT position FROM cache WHERE key = ?').pluck(),
    keep: database.prepare<[string, number]>('INSERT OR IGNORE INTO cache (key, position) VALUES (?, ?)'),
    forget: database.prepare<[string]>('DELETE FROM cache WHERE key = ?'),
    empty: database.prepare<[]>('DELETE FROM cache'),
  };
}
