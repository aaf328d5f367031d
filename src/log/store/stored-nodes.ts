// The stored subtrees in the order in which a growing tree completes them: each level is read along page by page,
// which costs a fraction of looking every node up.
import type { Database } from 'better-sqlite3';

/** Nodes of a level that are read at a time. */
const pageLength = 256;

/** Index in the level, and hash in hex with capitals. */
type Row = readonly [index: number, hash: string];
type Page = Readonly<{ start: number; hashes: ReadonlyMap<number, string> }>;

export type StoredNodes = Readonly<{
  /** The stored hash of (level, index) in hex with capitals; quick as long as the indices asked for on a level only grow. */
  hashAt(level: number, index: number): string | undefined;
}>;

export function readNodesAlong(database: Database): StoredNodes {
  const rows = database
    .prepare<[number, number, number], Row>(
      'SELECT idx, hex(hash) FROM node WHERE level = ? AND idx BETWEEN ? AND ?',
    )
    .raw();
  /** The page of each level that was read last. */
  const pages = new Map<number, Page>();

  return {
    hashAt(level, index) {
      const start = index - (index % pageLength);
      const last = pages.get(level);
      const page = last?.start === start ? last : read(level, start);
      return page.hashes.get(index);
    },
  };

  function read(level: number, start: number): Page {
    const page = { start, hashes: new Map(rows.all(level, start, start + pageLength - 1)) };
    pages.set(level, page);
    return page;
  }
}
