// The first thing at every start: does the storage work, which phone is this, and has it a key.
import { newKey } from './key.ts';
import type { Outside } from './outside.ts';
import type { StorageState } from './port.ts';
import type { Database, NotebookSchema } from './storage/database.ts';
import type { Meta } from './storage/rows.ts';

/** Writes, reads and deletes: in a private window some browsers refuse only then. */
export async function probe(
  { newId }: Pick<Outside, 'newId'>,
  database: Database<NotebookSchema>,
): Promise<boolean> {
  const written = newId();
  // Each window has a name of its own for it, or one would delete what the other is about to read.
  const name = `probe:${written}`;
  try {
    await database.write(['kept'], (transaction) => transaction.objectStore('kept').put(written, name));
    const found = await database.read((db) => db.get('kept', name));
    await database.write(['kept'], (transaction) => transaction.objectStore('kept').delete(name));
    return found === written;
  } catch {
    return false;
  }
}

/** Makes a device of this phone where it is none yet; of two windows that start at once, one does. */
export async function becomeDevice(
  outside: Outside,
  database: Database<NotebookSchema>,
): Promise<Pick<Meta, 'device'> & Partial<Pick<Meta, 'keys' | 'seq'>>> {
  const fresh = { device: outside.newId(), keys: await newKey(outside) };
  return database.write(['meta'], async (transaction) => {
    const store = transaction.objectStore('meta');
    const [device, keys, seq] = await Promise.all([store.get('device'), store.get('keys'), store.get('seq')]);
    if (typeof device === 'string')
      return {
        device,
        ...(keys === undefined ? {} : { keys: keys as CryptoKeyPair }),
        seq: (seq as number | undefined) ?? 0,
      };
    await Promise.all([
      store.put(fresh.device, 'device'),
      store.put(0, 'seq'),
      ...(fresh.keys === undefined ? [] : [store.put(fresh.keys, 'keys')]),
    ]);
    return { device: fresh.device, seq: 0, ...(fresh.keys === undefined ? {} : { keys: fresh.keys }) };
  });
}

/** How much the browser gives and whether it keeps it. */
export async function measureStorage({
  storage,
}: Outside): Promise<Pick<StorageState, 'persisted' | 'usedBytes' | 'quotaBytes'>> {
  try {
    const [estimate, persisted] = await Promise.all([storage?.estimate(), storage?.persisted()]);
    return { persisted, usedBytes: estimate?.usage, quotaBytes: estimate?.quota };
  } catch {
    return { persisted: undefined, usedBytes: undefined, quotaBytes: undefined };
  }
}
