// The first thing at every start: does the storage work, which phone is this, and has it a key.
import type { Core } from './core.ts';
import { newKey } from './key.ts';
import type { Outside } from './outside.ts';
import type { StorageState } from './port.ts';
import { type Database, type NotebookSchema, StorageError } from './storage/database.ts';

/** What the storage is good for: a full one still gives back what it holds. */
export type Probed = 'works' | 'full' | 'broken';

/** Writes, reads and deletes: in a private window some browsers refuse only then. */
export async function probe(
  { newId }: Pick<Outside, 'newId'>,
  database: Database<NotebookSchema>,
): Promise<Probed> {
  const written = newId();
  // Each window has a name of its own for it, or one would delete what the other is about to read.
  const name = `probe:${written}`;
  try {
    await database.write(['kept'], (transaction) => transaction.objectStore('kept').put(written, name));
    const found = await database.read((db) => db.get('kept', name));
    await database.write(['kept'], (transaction) => transaction.objectStore('kept').delete(name));
    return found === written ? 'works' : 'broken';
  } catch (error) {
    return error instanceof StorageError && error.full ? 'full' : 'broken';
  }
}

/** Makes a device of this phone where it is none yet; of two windows that start at once, one does. */
export async function becomeDevice(outside: Outside, database: Database<NotebookSchema>): Promise<void> {
  const known = await database.read((db) => db.get('meta', 'device'));
  if (known !== undefined) return;
  const device = outside.newId();
  const keys = await newKey(outside);
  await database.write(['meta'], async (transaction) => {
    const store = transaction.objectStore('meta');
    if ((await store.get('device')) !== undefined) return;
    await Promise.all([
      store.put(device, 'device'),
      store.put(0, 'seq'),
      ...(keys === undefined ? [] : [store.put(keys, 'keys')]),
    ]);
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

/** The key of this phone, made now where the browser has learned to make one since the phone became a device. */
export async function keyOf({ outside, notebook, values }: Core): Promise<CryptoKeyPair | undefined> {
  const known = values.get('keys');
  if (known !== undefined) return known;
  const fresh = await newKey(outside);
  if (fresh === undefined) return undefined;
  // Another window may have been faster; one phone has one key.
  const keys = await notebook.write(['meta'], async (transaction) => {
    const store = transaction.objectStore('meta');
    const here = (await store.get('keys')) as CryptoKeyPair | undefined;
    if (here === undefined) await store.put(fresh, 'keys');
    return here ?? fresh;
  });
  values.note({ keys });
  return keys;
}
