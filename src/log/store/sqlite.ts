// The port on SQLite. Everything is done when a call returns its promise; the promises are there for
// databases that take longer.
import { consistencyProof, inclusionProof, readEnvelope } from '../entry/index.ts';
import { openAppender } from './append.ts';
import { type OpenFile, read, tryOut, write } from './database.ts';
import { errorCode } from './error.ts';
import { sha256 } from './hash.ts';
import { openLookup } from './lookup.ts';
import type { AppendOptions, BackupMade, Incoming, Log, Receipt, Stored } from './port.ts';
import { openAside } from './put-aside.ts';
import { type EntryRow, entryColumns, storedOf } from './rows.ts';
import { format } from './schema.ts';
import { openSealing } from './sealing.ts';
import { inUtc } from './time.ts';
import { openTree } from './tree.ts';

const pageLength = 1000;

/** A log over an open file. */
export function logOn(file: OpenFile): Log {
  const { database, path } = file;
  const tree = openTree(file);
  const aside = openAside(database);
  const sealing = openSealing(database);
  const appender = openAppender({ database, tree, aside, sealing });
  const byId = database.prepare<[string], EntryRow>(`SELECT ${entryColumns} FROM entry WHERE id = ?`);
  const byPosition = database.prepare<[number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position = ?`,
  );
  const page = database.prepare<[number, number, number], EntryRow>(
    `SELECT ${entryColumns} FROM entry WHERE position >= ? AND position < ? ORDER BY position LIMIT ?`,
  );
  const lastSeq = database
    .prepare<[string], number | null>('SELECT max(seq) FROM entry WHERE device = ?')
    .pluck();
  const noteBackup = database.prepare<[string, string, number, string]>(
    'INSERT INTO backup_made (at, name, size, root) VALUES (?, ?, ?, ?)',
  );
  const lastBackup = database.prepare<[], { at: string; name: string; size: number; root: string }>(
    'SELECT at, name, size, root FROM backup_made ORDER BY number DESC LIMIT 1',
  );
  let walHoldsErased = false;

  return {
    facts() {
      const first = read(file, () => byPosition.get(0));
      return {
        path,
        ...(first ? { logbook: first.id } : {}),
        format: file.format,
        readOnly: file.readOnly,
        newer: file.format > format,
      };
    },
    head: async () => read(file, () => tree.head()),
    rootAt: async (size) => read(file, () => tree.rootAt(size)),
    append: async (incoming, receivedAt, options) =>
      incoming.length === 0 ? [] : appendAll(() => incoming, receivedAt, options),
    compose: async (device, make, receivedAt, options) =>
      appendAll(() => make(Math.max(lastSeq.get(device) ?? 0, options?.floor ?? 0) + 1), receivedAt, options),
    async *read({ from = 0, to = Number.MAX_SAFE_INTEGER } = {}) {
      for (let next = from; next < to; ) {
        const rows = read(file, () => page.all(next, to, pageLength));
        const last = rows.at(-1);
        if (last === undefined) return;
        yield rows.map(storedOf);
        next = last.position + 1;
      }
    },
    lastSeq: async (device) => read(file, () => lastSeq.get(device) ?? 0),
    get: async (id) => read(file, () => one(byId.get(id))),
    at: async (position) => read(file, () => one(byPosition.get(position))),
    sizeReceivedBy: async (time) => read(file, () => sizeReceivedBy(inUtc('time', time))),
    aside: async () => read(file, () => aside.all()),
    async setAside(bytes, issue, receivedAt) {
      const time = inUtc('receivedAt', receivedAt);
      return write(file, () => aside.put({ bytes }, issue, time));
    },
    sealed: async (hash) => read(file, () => sealing.get(hash)),
    supplySealed: async (row, entry) =>
      write(file, () => {
        const found = byId.get(entry);
        return found === undefined ? 'not-named' : sealing.supply(row, readEnvelope(found.bytes));
      }),
    missingRows: async (hashes) => read(file, () => hashes.filter(sealing.isMissing)),
    inclusionProof: async (position, size) =>
      read(file, () => {
        tree.rootAt(size);
        return inclusionProof(position, size, tree.node, sha256);
      }),
    consistencyProof: async (from, to) =>
      read(file, () => {
        tree.rootAt(to);
        return consistencyProof(from, to, tree.node, sha256);
      }),
    lookup: (keysOf, version) => openLookup(file, keysOf, version),
    async noteBackup({ at, name, head }) {
      write(file, () => noteBackup.run(at, name, head.size, head.root));
    },
    async lastBackup(): Promise<BackupMade | undefined> {
      const row = read(file, () => lastBackup.get());
      return row && { at: row.at, name: row.name, head: { size: row.size, root: row.root } };
    },
    async close() {
      if (database.open && walHoldsErased) emptyWal();
      file.close();
    },
  };

  function appendAll(make: () => readonly Incoming[], time: string, options: AppendOptions = {}): Receipt[] {
    const receivedAt = inUtc('receivedAt', time);
    const append = () => appender(make(), receivedAt, options);
    if (options.dryRun === true) return tryOut(file, append).receipts;
    const done = write(file, append);
    if (done.edge) tree.remember(done.edge);
    walHoldsErased ||= done.erased;
    if (walHoldsErased) emptyWal();
    return done.receipts;
  }

  /**
   * What was erased still stands in the write-ahead log until that is emptied. A reader may delay it, and a disk
   * that fails must not make an append fail that is done: it is tried again at the next one and at closing.
   */
  function emptyWal(): void {
    try {
      const [result] = database.pragma('wal_checkpoint(TRUNCATE)') as [{ busy: number }];
      walHoldsErased = result.busy !== 0;
    } catch (error) {
      if (errorCode(error) === undefined) throw error;
      walHoldsErased = true;
    }
  }

  /** Times of receipt never go back, so halving finds the place. */
  function sizeReceivedBy(time: string): number {
    let [low, high] = [0, tree.head().size];
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      const row = byPosition.get(middle);
      if (row && row.received_at <= time) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

function one(row: EntryRow | undefined): Stored | undefined {
  return row && storedOf(row);
}
