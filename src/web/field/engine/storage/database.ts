// The databases of the phone and the one way to write into them: durably, waited for to the end, and never for
// longer than a limit. Upgrades add; nothing here deletes a store.
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames, wrap } from 'idb';
import { text } from '../../text/index.ts';
import type { Outside } from '../outside.ts';
import type { EntryRow, Meta, PhotoRow, PictureRow, SealedTextRow } from './rows.ts';

export interface NotebookSchema extends DBSchema {
  entries: { key: string; value: EntryRow; indexes: { waiting: number } };
  sealed: { key: string; value: SealedTextRow };
  meta: { key: string; value: Meta[keyof Meta] };
  /** Settings, remembered values and drafts, which are plain JSON. */
  kept: { key: string; value: unknown };
}
export interface PhotosSchema extends DBSchema {
  photos: { key: string; value: PhotoRow; indexes: { waiting: number } };
}
export interface PicturesSchema extends DBSchema {
  pictures: { key: string; value: PictureRow };
}

const notebookName = 'gapledger';
const photosName = 'gapledger-photos';
const picturesName = 'gapledger-drafts';
/** A phone that has not written after this time, milliseconds, has lost its storage or is full. */
const longestWrite = 15_000;

/** The phone did not keep what it was given. */
export class StorageError extends Error {
  /** The phone is full. */
  readonly full: boolean;

  constructor(message: string, full: boolean, cause?: unknown) {
    super(message, { cause });
    this.name = 'StorageError';
    this.full = full;
  }
}

export type Transaction<S extends DBSchema> = IDBPTransaction<S, StoreNames<S>[], 'readwrite'>;

export type Database<S extends DBSchema> = Readonly<{
  read: <T>(act: (db: IDBPDatabase<S>) => Promise<T>) => Promise<T>;
  /**
   * Writes in one transaction over these stores, all or nothing.
   * @throws StorageError when nothing was written
   */
  write: <T>(stores: StoreNames<S>[], act: (transaction: Transaction<S>) => Promise<T>) => Promise<T>;
  close: () => void;
}>;

export function openNotebook(outside: Outside): Database<NotebookSchema> {
  return database(outside, notebookName, 1, (db) => {
    const raw = db as unknown as IDBDatabase;
    raw.createObjectStore('entries', { keyPath: 'id' }).createIndex('waiting', 'waiting');
    raw.createObjectStore('sealed', { keyPath: 'hash' });
    raw.createObjectStore('meta');
    raw.createObjectStore('kept');
  });
}

export function openPhotos(outside: Outside): Database<PhotosSchema> {
  return database(outside, photosName, 1, (db) => {
    const raw = db as unknown as IDBDatabase;
    raw.createObjectStore('photos', { keyPath: 'hash' }).createIndex('waiting', 'waiting');
  });
}

export function openPictures(outside: Outside): Database<PicturesSchema> {
  return database(outside, picturesName, 1, (db) => {
    (db as unknown as IDBDatabase).createObjectStore('pictures', { keyPath: 'screen' });
  });
}

function database<S extends DBSchema>(
  outside: Outside,
  name: string,
  version: number,
  create: (db: IDBDatabase) => void,
): Database<S> {
  let opened: Promise<IDBPDatabase<S>> | undefined;
  const forget = () => {
    opened = undefined;
  };
  const open = (): Promise<IDBPDatabase<S>> => {
    opened ??= openOnce<S>(outside, { name, version, create, closed: forget });
    // A failure is not kept: the next call tries again.
    opened.catch(forget);
    return opened;
  };
  /** Phones drop connections now and then; a connection made anew often works. */
  const withConnection = async <T>(act: (db: IDBPDatabase<S>) => Promise<T>): Promise<T> => {
    try {
      return await act(await open());
    } catch (error) {
      if (!isLostConnection(error)) throw error;
      forget();
      return act(await open());
    }
  };
  return {
    read: (act) => within(outside, withConnection(act)),
    write: async (stores, act) => {
      try {
        return await withConnection((db) => writeOnce(outside, db, stores, act));
      } catch (error) {
        throw storageError(error);
      }
    },
    close: () => {
      void opened?.then((db) => db.close()).catch(() => undefined);
      forget();
    },
  };
}

type Opening = Readonly<{
  name: string;
  version: number;
  create: (db: IDBDatabase) => void;
  closed: () => void;
}>;

async function openOnce<S extends DBSchema>(
  outside: Outside,
  { name, version, create, closed }: Opening,
): Promise<IDBPDatabase<S>> {
  const request = outside.indexedDB.open(name, version);
  request.onupgradeneeded = ({ oldVersion }) => {
    if (oldVersion === 0) create(request.result);
  };
  const db = (await within(outside, wrap(request))) as unknown as IDBPDatabase<S>;
  const raw = request.result;
  raw.onclose = closed;
  // A newer version of the page wants to upgrade: it must not wait for this window.
  raw.onversionchange = () => {
    raw.close();
    closed();
  };
  return db;
}

async function writeOnce<S extends DBSchema, T>(
  outside: Outside,
  db: IDBPDatabase<S>,
  stores: StoreNames<S>[],
  act: (transaction: Transaction<S>) => Promise<T>,
): Promise<T> {
  const transaction = db.transaction(stores, 'readwrite', { durability: 'strict' }) as Transaction<S>;
  const abort = () => {
    try {
      transaction.abort();
    } catch {
      // It has ended already.
    }
  };
  const done = transaction.done;
  // It is waited for below; until then nobody may complain that nobody listens.
  done.catch(() => undefined);
  try {
    const result = await within(outside, act(transaction));
    await within(outside, done);
    return result;
  } catch (error) {
    abort();
    // Why a transaction ended tells more than that a request in it was cut off.
    throw transaction.error ?? error;
  }
}

/** Some browsers never call back when a disk is full. */
async function within<T>({ later }: Outside, work: Promise<T>): Promise<T> {
  let callOff: () => void = () => undefined;
  const limit = new Promise<never>((_, reject) => {
    callOff = later(longestWrite, () => reject(new StorageError(text.engine.storageSilent, false)));
  });
  try {
    return await Promise.race([work, limit]);
  } finally {
    callOff();
  }
}

function isLostConnection(error: unknown): boolean {
  return (
    error instanceof Error &&
    (error.name === 'InvalidStateError' || /connection to indexed database/i.test(error.message))
  );
}

function storageError(error: unknown): Error {
  if (!(error instanceof Error)) return new StorageError(String(error), false);
  const known = ['QuotaExceededError', 'AbortError', 'InvalidStateError', 'UnknownError', 'DataError'];
  if (error.name === 'QuotaExceededError') return new StorageError(text.engine.phoneFull, true, error);
  return known.includes(error.name)
    ? new StorageError(text.engine.notKept(error.message), false, error)
    : error;
}
