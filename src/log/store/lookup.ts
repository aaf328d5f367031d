// Finding entries by keys, by the cache in the file or, where that cannot be had, by a scan of all entries.
import { type OpenFile, read } from './database.ts';
import { errorCode, LogbookError } from './error.ts';
import { type KeyIndex, type KeysOf, openCachedKeys } from './lookup-cache.ts';
import type { Lookup } from './port.ts';
import { type EntryRow, entryColumns, storedOf } from './rows.ts';

export function openLookup(file: OpenFile, keysOf: KeysOf, version: string): Lookup {
  const entry = file.database.prepare<[number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position = ?`,
  );
  const cached = openCachedKeys(file, keysOf, version);
  const scanned = openScannedKeys(file, keysOf);
  const positionsOf = (keys: readonly string[]): number[] =>
    [...new Set(eitherOf(cached, scanned)(keys))].sort((a, b) => a - b);
  return {
    positions: async (keys) => read(file, () => positionsOf(keys)),
    entries: async (keys) =>
      read(file, () =>
        positionsOf(keys).flatMap((position) => {
          const row = entry.get(position);
          return row ? [storedOf(row)] : [];
        }),
      ),
  };
}

/** A cache that is read-only, locked, damaged or has no room left is no reason not to answer. */
function eitherOf(cached: KeyIndex, scanned: KeyIndex): KeyIndex {
  return (keys) => {
    try {
      return cached(keys);
    } catch (error) {
      if (error instanceof LogbookError || errorCode(error)?.startsWith('SQLITE_')) return scanned(keys);
      throw error;
    }
  };
}

/** All keys in memory, caught up with the log at every question. */
function openScannedKeys({ database }: OpenFile, keysOf: KeysOf): KeyIndex {
  const rows = database.prepare<[number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position >= ? ORDER BY position`,
  );
  const positions = new Map<string, number[]>();
  let size = 0;
  return (keys) => {
    for (const row of rows.iterate(size)) {
      for (const key of keysOf(storedOf(row))) {
        const list = positions.get(key);
        if (list) list.push(row.position);
        else positions.set(key, [row.position]);
      }
      size = row.position + 1;
    }
    return keys.flatMap((key) => positions.get(key) ?? []);
  };
}
