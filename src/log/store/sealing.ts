// Erasable rows: what belongs to a person lies here, its hash in the entry. An entry that erases takes row and
// salt away, for good; the hash stays and shows that something was there.
import type { Database } from 'better-sqlite3';
import { type EntryIssue, type Envelope, seal } from '../entry/index.ts';
import { sha256 } from './hash.ts';
import type { SealedRow, Supplied } from './port.ts';
import { type SealedColumns, sealedOf } from './rows.ts';

/** Bytes of a salt. */
export const saltLength = 16;

export type Sealing = Readonly<{
  get(hash: string): SealedRow | undefined;
  /** What is wrong between an entry and the rows that came with it. */
  issue(envelope: Envelope, rows: readonly SealedRow[], mayFollow: boolean): EntryIssue | undefined;
  /** Keeps a row that an entry in the log names; within a transaction of the caller. */
  supply(row: SealedRow, envelope: Envelope): Supplied;
  /** Whether the row is neither here nor erased. */
  isMissing(hash: string): boolean;
  /** Keeps the rows that are new and were not erased before; within a transaction of the caller. */
  keep(rows: readonly SealedRow[]): void;
  /** Erases rows by the entry at this position; within a transaction of the caller. */
  erase(hashes: readonly string[], position: number): void;
}>;

export function openSealing(database: Database): Sealing {
  const find = database.prepare<[string], SealedColumns>(
    'SELECT hash, salt, bytes, media_type FROM sealed WHERE hash = ?',
  );
  const isThere = database.prepare<[string], unknown>('SELECT 1 FROM sealed WHERE hash = ?');
  const isErased = database.prepare<[string], unknown>('SELECT 1 FROM erased WHERE hash = ?');
  const insert = database.prepare<[string, Uint8Array, Uint8Array, string]>(
    'INSERT INTO sealed (hash, salt, bytes, media_type) VALUES (?, ?, ?, ?)',
  );
  const noteErased = database.prepare<[string, number]>('INSERT INTO erased (hash, position) VALUES (?, ?)');
  const remove = database.prepare<[string]>('DELETE FROM sealed WHERE hash = ?');
  const removeAside = database.prepare<[string]>('DELETE FROM aside_sealed WHERE hash = ?');
  const known = (hash: string): boolean =>
    isThere.get(hash) !== undefined || isErased.get(hash) !== undefined;

  return {
    get(hash) {
      const row = find.get(hash);
      return row && sealedOf(row);
    },
    isMissing: (hash) => !known(hash),
    supply(row, envelope) {
      if (!(envelope.sealed ?? []).includes(row.hash)) return 'not-named';
      if (formIssue(row) !== undefined) return 'changed';
      if (isErased.get(row.hash) !== undefined) return 'erased';
      if (isThere.get(row.hash) !== undefined) return 'already-kept';
      insert.run(row.hash, row.salt, row.bytes, row.mediaType);
      return 'kept';
    },
    issue(envelope, rows, mayFollow) {
      const named = envelope.sealed ?? [];
      for (const row of rows) {
        const wrong = rowIssue(row, named);
        if (wrong) return { field: 'sealed', value: row.hash, remedy: wrong };
      }
      if (mayFollow) return undefined;
      const missing = named.find((hash) => !rows.some((row) => row.hash === hash) && !known(hash));
      if (missing === undefined) return undefined;
      return {
        field: 'sealed',
        value: missing,
        remedy: 'the row with this hash did not come with the entry; send both together',
      };
    },
    keep(rows) {
      for (const row of rows) {
        if (!known(row.hash)) insert.run(row.hash, row.salt, row.bytes, row.mediaType);
      }
    },
    erase(hashes, position) {
      for (const hash of hashes) {
        if (isErased.get(hash) === undefined) noteErased.run(hash, position);
        remove.run(hash);
        removeAside.run(hash);
      }
    },
  };
}

function rowIssue(row: SealedRow, named: readonly string[]): string | undefined {
  const wrong = formIssue(row);
  if (wrong !== undefined) return wrong;
  if (!named.includes(row.hash)) return 'the entry does not name this row; send it with the entry that does';
  return undefined;
}

/** What is wrong with a row by itself. */
function formIssue(row: SealedRow): string | undefined {
  if (row.salt.length !== saltLength) return `the salt of a sealed row is ${saltLength} bytes`;
  if (seal(row.bytes, row.salt, sha256) !== row.hash)
    return 'the row does not have the hash it claims; send it as the device sealed it';
  return undefined;
}
