// What could not be recorded is kept aside for a person to look at: the same bytes once.
import type { Database } from 'better-sqlite3';
import type { EntryIssue } from '../entry/index.ts';
import { sha256Hex } from './hash.ts';
import type { Aside, Incoming, SealedRow } from './port.ts';
import { type SealedColumns, sealedOf, signatureOf, signatureText } from './rows.ts';

type AsideRow = Readonly<{
  number: number;
  bytes: Uint8Array;
  received_at: string;
  field: string;
  value: string;
  remedy: string;
  conflicts_with: number | null;
  signature: string | null;
}>;

export type AsideShelf = Readonly<{
  /** Keeps it, within a transaction of the caller; gives its number. */
  put(incoming: Incoming, issue: EntryIssue, receivedAt: string, conflictsWith?: number): number;
  all(): Aside[];
}>;

export function openAside(database: Database): AsideShelf {
  const find = database.prepare<[string], { number: number }>('SELECT number FROM aside WHERE hash = ?');
  const keep = database.prepare<
    [string, Uint8Array, string, string, string, string, number | null, string | null]
  >(
    `INSERT INTO aside (hash, bytes, received_at, field, value, remedy, conflicts_with, signature)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const keepSealed = database.prepare<[number, string, Uint8Array, Uint8Array, string]>(
    'INSERT INTO aside_sealed VALUES (?, ?, ?, ?, ?)',
  );
  const all = database.prepare<[], AsideRow>('SELECT * FROM aside ORDER BY number');
  const sealedOfAside = database.prepare<[number], SealedColumns>(
    'SELECT hash, salt, bytes, media_type FROM aside_sealed WHERE aside = ? ORDER BY rowid',
  );

  return {
    put(incoming, issue, receivedAt, conflictsWith) {
      const hash = sha256Hex(incoming.bytes);
      const there = find.get(hash);
      if (there) return there.number;
      const { lastInsertRowid } = keep.run(
        hash,
        incoming.bytes,
        receivedAt,
        issue.field,
        issue.value,
        issue.remedy,
        conflictsWith ?? null,
        signatureText(incoming.signature),
      );
      const number = Number(lastInsertRowid);
      for (const row of incoming.sealed ?? [])
        keepSealed.run(number, row.hash, row.salt, row.bytes, row.mediaType);
      return number;
    },
    all: () => all.all().map((row) => asideOf(row, sealedOfAside.all(row.number).map(sealedOf))),
  };
}

function asideOf(row: AsideRow, sealed: readonly SealedRow[]): Aside {
  const signature = signatureOf(row.signature);
  return {
    number: row.number,
    receivedAt: row.received_at,
    bytes: row.bytes,
    issue: { field: row.field, value: row.value, remedy: row.remedy },
    ...(row.conflicts_with === null ? {} : { conflictsWith: row.conflicts_with }),
    ...(signature ? { signature } : {}),
    sealed,
  };
}
