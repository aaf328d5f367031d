// Copies what a phone has stored, as a backup of the phone does.
import { IDBFactory } from 'fake-indexeddb';

type Store = {
  name: string;
  keyPath: string | null;
  indexes: string[];
  keys: IDBValidKey[];
  values: unknown[];
};
export type Copy = readonly { name: string; version: number; stores: Store[] }[];

function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('a request failed'));
  });
}

/** Everything in all databases. */
export async function copyOf(storage: IDBFactory): Promise<Copy> {
  const copy: { name: string; version: number; stores: Store[] }[] = [];
  for (const { name = '', version = 1 } of await storage.databases()) {
    const db = await settled(storage.open(name, version));
    const stores: Store[] = [];
    for (const each of db.objectStoreNames) {
      const store = db.transaction(each).objectStore(each);
      stores.push({
        name: each,
        keyPath: store.keyPath as string | null,
        indexes: [...store.indexNames],
        keys: await settled(store.getAllKeys()),
        values: await settled<unknown[]>(store.getAll()),
      });
    }
    db.close();
    copy.push({ name, version, stores });
  }
  return copy;
}

/** A phone's storage made from a copy. */
export async function restored(copy: Copy): Promise<IDBFactory> {
  const storage = new IDBFactory();
  for (const { name, version, stores } of copy) {
    const request = storage.open(name, version);
    request.onupgradeneeded = () => {
      for (const store of stores) {
        const made = request.result.createObjectStore(store.name, { keyPath: store.keyPath });
        for (const index of store.indexes) made.createIndex(index, index);
        for (const [at, value] of store.values.entries())
          if (store.keyPath === null) made.put(value, store.keys[at]);
          else made.put(value);
      }
    };
    (await settled(request)).close();
  }
  return storage;
}
