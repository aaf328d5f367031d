// Reaching into the file of a logbook past the program, as somebody with a database tool would.
import { copyFileSync } from 'node:fs';
import Sqlite, { type Database } from 'better-sqlite3';
import { readEnvelope, type TreeHead, writeEntry } from '../../src/log/entry/index.ts';
import { createLogbook, type Log, openLogbook } from '../../src/log/store/index.ts';
import { emptyPlace, envelopeOf, noon, sealedRow, signatureOf } from './made-up.ts';
import { leafText } from './memory-log.ts';
import { sha256, slowRoot } from './slow-tree.ts';

export const person = sealedRow('Jo Sawyer, 12 Mill Lane');
export const photo = sealedRow('a photo', 'image/jpeg');

/**
 * Makes a logbook of eleven entries, two minutes apart, the even ones signed. Entry 3 names a person and a photo, entry 6 names
 * the person again, entry 8 erases the photo.
 */
export async function writeLogbook(log: Log, length = 11): Promise<void> {
  for (let position = 0; position < length; position += 1) {
    const bytes = writeEntry(
      envelopeOf(position + 1, {
        ...(position === 3 ? { sealed: [person.hash, photo.hash] } : {}),
        ...(position === 6 ? { sealed: [person.hash] } : {}),
        ...(position === 8 ? { erases: [photo.hash] } : {}),
      }),
    );
    const receivedAt = new Date(Date.parse(noon) + 120_000 * position).toISOString();
    const sealed = position === 3 ? { sealed: [person, photo] } : {};
    const signature = position % 2 === 0 ? { signature: signatureOf(`entry ${position}`) } : {};
    await log.append([{ bytes, ...sealed, ...signature }], receivedAt);
  }
}

/** A logbook as writeLogbook makes it, closed. */
export async function soundLogbook(length = 11): Promise<string> {
  const path = emptyPlace();
  const log = await createLogbook(path);
  await writeLogbook(log, length);
  await log.close();
  return path;
}

export function copyOf(path: string): string {
  const copy = emptyPlace('copy.logbook');
  copyFileSync(path, copy);
  return copy;
}

/**
 * Does something to the file with all triggers out of the way, and puts them back, so that only the deed is left;
 * `afterwards` is done with the triggers there again.
 */
export function tamper(
  path: string,
  deed: (database: Database) => void,
  afterwards: (database: Database) => void = () => undefined,
): void {
  const database = new Sqlite(path, { fileMustExist: true });
  try {
    const triggers = triggersOf(database);
    for (const { name } of triggers) database.exec(`DROP TRIGGER ${name}`);
    deed(database);
    for (const { sql } of triggers) database.exec(sql);
    afterwards(database);
  } finally {
    database.close();
  }
}

export function triggersOf(database: Database): { name: string; sql: string }[] {
  return database
    .prepare<[], { name: string; sql: string }>("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
    .all();
}

/** The head that the logbook had at a size; its last one by default. */
export async function headOf(path: string, size?: number): Promise<TreeHead> {
  const log = await openLogbook(path, { readOnly: true });
  const head = await log.head();
  const earlier = size === undefined ? head : { size, root: await log.rootAt(size) };
  await log.close();
  return earlier;
}

export type EntryRow = {
  position: number;
  id: string;
  device: string;
  seq: number;
  bytes: Buffer;
  received_at: string;
  signature: string | null;
  leaf: Buffer;
};

export function rowsOf(database: Database): EntryRow[] {
  return database.prepare<[], EntryRow>('SELECT * FROM entry ORDER BY position').all();
}

/** The row for these bytes at a position, unsigned and received with the last entry; its leaf fits. */
export function rowWith(database: Database, position: number, bytes: Uint8Array): EntryRow {
  const rows = rowsOf(database);
  const { id, device, seq } = readEnvelope(bytes);
  const signature = rows[position]?.id === id ? rows[position].signature : null;
  const received_at = (rows[position]?.id === id ? rows[position] : rows.at(-1))?.received_at ?? noon;
  const leaf = leafOf({ position, received_at, bytes, signature });
  return { position, id, device, seq, bytes: Buffer.from(bytes), received_at, signature, leaf };
}

function leafOf(
  row: Pick<EntryRow, 'position' | 'received_at' | 'signature'> & { bytes: Uint8Array },
): Buffer {
  return Buffer.from(sha256(Buffer.concat([Buffer.of(0), textOf(row)])));
}

function textOf(
  row: Pick<EntryRow, 'position' | 'received_at' | 'signature'> & { bytes: Uint8Array },
): Uint8Array {
  const [keyId = '', signature = ''] = row.signature?.split(' ') ?? [];
  const signed = row.signature === null ? {} : { signature: { keyId, signature } };
  return leafText({
    position: row.position,
    receivedAt: row.received_at,
    bytes: row.bytes,
    id: '',
    ...signed,
  });
}

/** The forger's way: all rows as wanted, with every leaf, node, erasing and the head made anew. */
export function rehash(database: Database, rows: readonly EntryRow[]): void {
  database.exec('DELETE FROM entry; DELETE FROM node; DELETE FROM erased;');
  const insert = database.prepare('INSERT INTO entry VALUES (?, ?, ?, ?, ?, ?, ?, ?)');
  const erase = database.prepare('INSERT INTO erased VALUES (?, ?)');
  const placed = rows.map((row, position) => ({ ...row, position }));
  for (const row of placed) {
    const { position, id, device, seq, bytes, received_at, signature } = row;
    insert.run(position, id, device, seq, bytes, received_at, signature, leafOf(row));
    if (bytes.includes('"erases"'))
      for (const hash of readEnvelope(bytes).erases ?? []) erase.run(hash, position);
  }
  const leaves = placed.map(textOf);
  const node = database.prepare('INSERT INTO node VALUES (?, ?, ?)');
  for (let level = 1; 2 ** level <= rows.length; level += 1) {
    for (let index = 0; (index + 1) * 2 ** level <= rows.length; index += 1)
      node.run(level, index, slowRoot(leaves.slice(index * 2 ** level, (index + 1) * 2 ** level)));
  }
  const root = Buffer.from(slowRoot(leaves)).toString('hex');
  database.prepare('UPDATE head SET size = ?, root = ?').run(rows.length, root);
}
