// Single values of the phone, settings and drafts, held in memory too, for screens ask for them while they draw.
import type { JsonValue } from '../../../../events/index.ts';
import { text } from '../../text/index.ts';
import type { Draft } from '../port.ts';
import { type Database, type NotebookSchema, StorageError, type Transaction } from './database.ts';
import type { Meta } from './rows.ts';

export type Values = Readonly<{
  /** Reads everything anew: another window may have written. */
  load: () => Promise<void>;
  get: <K extends keyof Meta>(name: K) => Meta[K] | undefined;
  /** Writes these; undefined takes a value away. */
  set: (values: { readonly [K in keyof Meta]?: Meta[K] | undefined }) => Promise<void>;
  /** What was written by somebody else's transaction. */
  note: (values: { readonly [K in keyof Meta]?: Meta[K] | undefined }) => void;
  kept: (name: string) => JsonValue | undefined;
  /** All kept values whose names begin like this, by what comes after. */
  keptUnder: (prefix: string) => readonly (readonly [string, JsonValue])[];
  keep: (name: string, value: JsonValue | undefined) => Promise<void>;
}>;

/** Names of values in the store `kept`. */
export const keptNames = {
  setting: (name: string) => `setting:${name}`,
  remembered: (screen: string) => `remembered:${screen}`,
  draft: (screen: string) => `draft:${screen}`,
  /** Why the logbook did not take the bytes of a photo, by its hash. */
  refusedPhoto: (hash: string) => `refused photo:${hash}`,
};

/**
 * Makes sure within a transaction over the store `meta` that the storage still is the one that this page began with:
 * somebody may have cleared it under an open page, and what is written then would be taken for the whole.
 * @throws StorageError when it is another one
 */
export async function mustBeSameDevice(
  transaction: Transaction<NotebookSchema>,
  device: string | undefined,
): Promise<void> {
  const here = await transaction.objectStore('meta').get('device');
  if (here !== device) throw new StorageError(text.engine.otherDevice, false);
}

export function valuesOf(notebook: Database<NotebookSchema>): Values {
  let meta = new Map<string, unknown>();
  let kept = new Map<string, unknown>();
  const note: Values['note'] = (values) => {
    for (const [name, value] of Object.entries(values)) {
      if (value === undefined) meta.delete(name);
      else meta.set(name, value);
    }
  };
  return {
    load: async () => {
      [meta, kept] = await notebook.read(async (db) => {
        const transaction = db.transaction(['meta', 'kept']);
        const [values, others] = [transaction.objectStore('meta'), transaction.objectStore('kept')];
        const [names, all, keptNamed, keptAll] = await Promise.all([
          values.getAllKeys(),
          values.getAll(),
          others.getAllKeys(),
          others.getAll(),
        ]);
        return [
          new Map(names.map((name, index) => [name, all[index]])),
          new Map(keptNamed.map((name, index) => [name, keptAll[index]])),
        ];
      });
    },
    get: <K extends keyof Meta>(name: K) => meta.get(name) as Meta[K] | undefined,
    set: async (values) => {
      await notebook.write(['meta'], async (transaction) => {
        const store = transaction.objectStore('meta');
        await mustBeSameDevice(transaction, meta.get('device') as string | undefined);
        for (const [name, value] of Object.entries(values)) {
          if (value === undefined) await store.delete(name);
          else await store.put(value, name);
        }
      });
      note(values);
    },
    note,
    kept: (name) => kept.get(name) as JsonValue | undefined,
    keptUnder: (prefix) =>
      [...kept].flatMap(([name, value]) =>
        name.startsWith(prefix) ? [[name.slice(prefix.length), value as JsonValue] as const] : [],
      ),
    keep: async (name, value) => {
      // Held first: what the screen shows next is what was typed, also while the phone writes.
      if (value === undefined) kept.delete(name);
      else kept.set(name, value);
      await notebook.write(['kept'], async (transaction) => {
        const store = transaction.objectStore('kept');
        if (value === undefined) await store.delete(name);
        else await store.put(value, name);
      });
      // Meanwhile everything may have been read anew.
      if (value === undefined) kept.delete(name);
      else kept.set(name, value);
    },
  };
}

export function asDraft(value: JsonValue | undefined): Draft | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Draft) : undefined;
}
