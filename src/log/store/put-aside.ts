// What could not be recorded is kept aside for a person to look at: the same delivery once, with the rows that
// came with it, except those that were erased.
import type { Database } from 'better-sqlite3';
import { type EntryIssue, type Signature, seal, toHex } from '../entry/index.ts';
import { sha256, sha256Hex } from './hash.ts';
import type { Aside, Incoming, SealedRow } from './port.ts';
import { type SealedColumns, sealedOf } from './rows.ts';

type AsideRow = Readonly<{
  number: number;
  bytes: Uint8Array;
  received_at: string;
  field: string;
  value: string;
  remedy: string;
  conflicts_with: number | null;
  /** JSON, because what is kept here may be no signature at all. */
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
  const isErased = database.prepare<[string], unknown>('SELECT 1 FROM erased WHERE hash = ?');
  const keepSealed = database.prepare<[number, string, Uint8Array, Uint8Array, string]>(
    'INSERT INTO aside_sealed (aside, hash, salt, bytes, media_type) VALUES (?, ?, ?, ?, ?)',
  );
  const all = database.prepare<[], AsideRow>(
    'SELECT number, bytes, received_at, field, value, remedy, conflicts_with, signature FROM aside ORDER BY number',
  );
  const sealedOfAside = database.prepare<[number], SealedColumns>(
    'SELECT hash, salt, bytes, media_type FROM aside_sealed WHERE aside = ? ORDER BY rowid',
  );
  const positionOf = database.prepare<[string], number>('SELECT position FROM entry WHERE id = ?').pluck();

  return {
    put(incoming, issue, receivedAt, conflictsWith) {
      const hash = deliveryHash(incoming);
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
        incoming.signature === undefined ? null : JSON.stringify(incoming.signature),
      );
      const number = Number(lastInsertRowid);
      for (const row of incoming.sealed ?? []) {
        if (!wasErased(row)) keepSealed.run(number, row.hash, row.salt, row.bytes, row.mediaType);
      }
      return number;
    },
    all: () => all.all().map(asideOf),
  };

  /** By the hash it claims, or by the one it has: a wrong label must not bring it back. */
  function wasErased(row: SealedRow): boolean {
    return [row.hash, seal(row.bytes, row.salt, sha256)].some((hash) => isErased.get(hash) !== undefined);
  }

  function asideOf(row: AsideRow): Aside {
    const conflicts = row.conflicts_with;
    const settledBy = conflicts === null ? settlingPosition(row.bytes) : undefined;
    return {
      number: row.number,
      receivedAt: row.received_at,
      bytes: row.bytes,
      issue: { field: row.field, value: row.value, remedy: row.remedy },
      ...(conflicts === null ? {} : { conflictsWith: conflicts }),
      ...(settledBy === undefined ? {} : { settledBy }),
      ...(row.signature === null ? {} : { signature: JSON.parse(row.signature) as Signature }),
      sealed: sealedOfAside.all(row.number).map(sealedOf),
    };
  }

  function settlingPosition(bytes: Uint8Array): number | undefined {
    const id = idIn(bytes);
    return id === undefined ? undefined : positionOf.get(id);
  }
}

/** Names the bytes together with what came with them: another signature or other rows are another delivery. */
function deliveryHash({ bytes, signature, sealed = [] }: Incoming): string {
  const rows = sealed.map((row) => [row.hash, toHex(row.salt), sha256Hex(row.bytes), row.mediaType]);
  return sha256Hex(new TextEncoder().encode(JSON.stringify([sha256Hex(bytes), signature ?? null, rows])));
}

/** The id in bytes that are no proper entry, if they come near enough to one. */
function idIn(bytes: Uint8Array): string | undefined {
  try {
    const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
    if (typeof value !== 'object' || value === null || !('id' in value)) return undefined;
    return typeof value.id === 'string' ? value.id : undefined;
  } catch {
    return undefined;
  }
}
