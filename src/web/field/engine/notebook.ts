// The entries in the database: what is written together stays together. Every function is one transaction.
import type { SealedRow } from '../../../log/entry/index.ts';
import type { Database, NotebookSchema } from './storage/database.ts';
import type { EntryRow, Meta, SealedTextRow } from './storage/rows.ts';

export type Everything = Readonly<{ entries: readonly EntryRow[]; sealed: readonly SealedTextRow[] }>;

export async function readEverything(database: Database<NotebookSchema>): Promise<Everything> {
  return database.read(async (db) => {
    const transaction = db.transaction(['entries', 'sealed']);
    const [entries, sealed] = await Promise.all([
      transaction.objectStore('entries').getAll(),
      transaction.objectStore('sealed').getAll(),
    ]);
    return { entries, sealed };
  });
}

export async function readRows(
  database: Database<NotebookSchema>,
  ids: readonly string[],
): Promise<EntryRow[]> {
  return database.read(async (db) => {
    const store = db.transaction('entries').store;
    const rows = await Promise.all(ids.map((id) => store.get(id)));
    return rows.filter((row) => row !== undefined);
  });
}

export async function readTexts(
  database: Database<NotebookSchema>,
  hashes: readonly string[],
): Promise<SealedTextRow[]> {
  return database.read(async (db) => {
    const store = db.transaction('sealed').store;
    const rows = await Promise.all(hashes.map((hash) => store.get(hash)));
    return rows.filter((row) => row !== undefined);
  });
}

/** Another window used the sequence number meanwhile, or made another device of this phone. */
export type Taken = Readonly<{ taken: number } | { otherDevice: true }>;

/**
 * Keeps an entry and its sequence number, or neither. Two windows may save at the same time: the number is looked at
 * within the transaction, and who comes second is told which one was used last.
 */
export async function keepOwn(
  database: Database<NotebookSchema>,
  { row, texts, seq, device }: { row: EntryRow; texts: readonly SealedRow[]; seq: number; device: string },
): Promise<Taken | undefined> {
  return database.write(['entries', 'sealed', 'meta'], async (transaction) => {
    const meta = transaction.objectStore('meta');
    const [last, here] = await Promise.all([meta.get('seq'), meta.get('device')]);
    if (here !== device) return { otherDevice: true };
    const used = (last as Meta['seq'] | undefined) ?? 0;
    if (used !== seq - 1) return { taken: used };
    await Promise.all([
      meta.put(seq, 'seq'),
      transaction.objectStore('entries').add(row),
      ...texts.map((text) => transaction.objectStore('sealed').put(text)),
    ]);
    return undefined;
  });
}
