// The stored subtrees in the order in which a growing tree completes them: each level is read along once,
// which costs a fraction of looking every node up.
import type { Database } from 'better-sqlite3';

/** Index in the level, and hash in hex. */
type Row = readonly [index: number, hash: string];

export type StoredNodes = Readonly<{
  /** The stored hash of (level, index) in hex; on each level the indices asked for only grow. */
  hashAt(level: number, index: number): string | undefined;
  /** To be called before the database is closed. */
  close(): void;
}>;

export function readNodesAlong(database: Database): StoredNodes {
  const levels = new Map<number, { rows: Iterator<Row>; at: Row | undefined }>();
  const hashAt = (level: number, index: number): string | undefined => {
    let along = levels.get(level);
    if (along === undefined) {
      const rows = nodesOf(database, level);
      along = { rows, at: next(rows) };
      levels.set(level, along);
    }
    while (along.at !== undefined && along.at[0] < index) along.at = next(along.rows);
    return along.at?.[0] === index ? along.at[1] : undefined;
  };
  const close = () => {
    for (const { rows } of levels.values()) rows.return?.();
  };
  return { hashAt, close };
}

function nodesOf(database: Database, level: number): Iterator<Row> {
  return database
    .prepare<[number], Row>('SELECT idx, lower(hex(hash)) FROM node WHERE level = ? ORDER BY idx')
    .raw()
    .iterate(level);
}

function next(rows: Iterator<Row>): Row | undefined {
  const step = rows.next();
  return step.done === true ? undefined : step.value;
}
