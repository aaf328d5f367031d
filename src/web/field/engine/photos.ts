// Photos on the phone: kept apart from the entries, in a database that may fail without taking them along.
import { toBase64 } from '../../../log/entry/index.ts';
import type { Database, PhotosSchema } from './storage/database.ts';
import type { PhotoRow } from './storage/rows.ts';

export type Photos = Readonly<{
  /** @throws StorageError when the phone does not keep it */
  put: (row: PhotoRow) => Promise<void>;
  get: (hash: string) => Promise<PhotoRow | undefined>;
  /** Hashes of photos whose bytes the logbook does not have, also of those that it did not take. */
  waiting: () => Promise<readonly string[]>;
  /** Writes what became of a photo. */
  settle: (hash: string, became: 'sent' | 'erased') => Promise<void>;
  /** Sends all photos once more: the logbook lost what it had. */
  sendAgain: () => Promise<void>;
  erase: (hashes: readonly string[]) => Promise<void>;
  all: () => Promise<readonly string[]>;
  clear: () => Promise<void>;
}>;

export function photosIn(database: Database<PhotosSchema>): Photos {
  return {
    put: (row) =>
      database.write(
        ['photos'],
        async (transaction) => void (await transaction.objectStore('photos').put(row)),
      ),
    get: (hash) => database.read((db) => db.get('photos', hash)),
    waiting: () => database.read((db) => db.getAllKeysFromIndex('photos', 'waiting')),
    settle: (hash, became) =>
      database.write(['photos'], async (transaction) => {
        const store = transaction.objectStore('photos');
        const row = await store.get(hash);
        if (row === undefined) return;
        if (became === 'erased') return store.delete(hash);
        const { waiting: _, refused: __, ...rest } = row;
        await store.put(rest);
      }),
    sendAgain: () =>
      database.write(['photos'], async (transaction) => {
        const store = transaction.objectStore('photos');
        // One after the other: all of them at once may not fit into memory.
        for (const hash of await store.getAllKeys()) {
          const row = await store.get(hash);
          if (row !== undefined) await store.put({ ...row, waiting: 1 });
        }
      }),
    erase: (hashes) =>
      database.write(['photos'], async (transaction) => {
        for (const hash of hashes) await transaction.objectStore('photos').delete(hash);
      }),
    all: () => database.read((db) => db.getAllKeys('photos')),
    clear: () => database.write(['photos'], (transaction) => transaction.objectStore('photos').clear()),
  };
}

/** A photo as it goes beside its entry. */
export function photoJson({ salt, bytes, mediaType }: PhotoRow) {
  return { salt: toBase64(salt), bytes: toBase64(bytes), mediaType };
}
