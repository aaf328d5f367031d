// Verification of the erasable rows: each that an entry names is there unchanged, or was erased by an entry.
import type { Database } from 'better-sqlite3';
import { type Envelope, seal } from '../entry/index.ts';
import { sha256 } from './hash.ts';
import type { MayFollow } from './port.ts';
import type { SealedColumns } from './rows.ts';
import { saltLength } from './sealing.ts';
import type { Notebook } from './verification.ts';

export type SealedCheck = Readonly<{
  /** To be told of every entry that names or erases rows. */
  note(envelope: Envelope, position: number): void;
  /** Compares with the tables; gives how many rows were erased properly, and how many have not come yet. */
  finish(database: Database, notebook: Notebook): { erased: number; awaited: number };
}>;

/** @param mayFollow which entries may be here before their rows; none if left out */
export function openSealedCheck(mayFollow: MayFollow = () => false): SealedCheck {
  /** Position of the first entry that names, or erases, a row. */
  const named = new Map<string, number>();
  const erasing = new Map<string, number>();
  /** Rows of which every entry that names them may be here first. */
  const following = new Set<string>();

  return {
    note(envelope, position) {
      const follows = envelope.sealed !== undefined && mayFollow(envelope);
      for (const hash of listOf(envelope.sealed)) {
        if (!follows) following.delete(hash);
        else if (!named.has(hash)) following.add(hash);
        if (!named.has(hash)) named.set(hash, position);
      }
      for (const hash of listOf(envelope.erases)) if (!erasing.has(hash)) erasing.set(hash, position);
    },
    finish(database, notebook) {
      const there = checkRows(database, notebook);
      const erased = checkErased(database, notebook);
      let awaited = 0;
      for (const [hash, position] of named) {
        if (there.has(hash) || erased.has(hash)) continue;
        if (following.has(hash)) awaited += 1;
        else notebook.add('sealed-missing', `The row ${hash} is missing, and no entry erased it.`, position);
      }
      for (const [hash, position] of erasing) {
        if (!erased.has(hash))
          notebook.add('erased', `This entry erases the row ${hash}, but that is not on record.`, position);
        if (there.has(hash))
          notebook.add('erased', `This entry erases the row ${hash}, but the row is still there.`, position);
      }
      return { erased: [...erased].filter((hash) => erasing.has(hash)).length, awaited };
    },
  };

  function checkRows(database: Database, notebook: Notebook): Set<string> {
    const rows = database.prepare<[], SealedColumns>('SELECT hash, salt, bytes, media_type FROM sealed');
    const there = new Set<string>();
    for (const row of rows.iterate()) {
      there.add(row.hash);
      const position = named.get(row.hash);
      if (position === undefined)
        notebook.add('sealed-stray', `No entry names the row ${row.hash}; it was put in from outside.`);
      else if (row.salt.length !== saltLength || seal(row.bytes, row.salt, sha256) !== row.hash)
        notebook.add('sealed-changed', `The row ${row.hash} was changed after it was recorded.`, position);
    }
    return there;
  }

  /** Rows that count as erased; each of them must be by the entry that stands there. */
  function checkErased(database: Database, notebook: Notebook): Set<string> {
    const rows = database.prepare<[], { hash: string; position: number }>(
      'SELECT hash, position FROM erased',
    );
    const erased = new Set<string>();
    for (const { hash, position } of rows.iterate()) {
      erased.add(hash);
      if (erasing.get(hash) !== position)
        notebook.add('erased', `The row ${hash} counts as erased, but no entry erases it.`, position);
    }
    return erased;
  }
}

/** Bytes in a tampered file may hold anything. */
function listOf(hashes: readonly string[] | undefined): readonly string[] {
  return Array.isArray(hashes) ? (hashes as readonly string[]) : [];
}
