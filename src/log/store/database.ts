// The SQLite file under a logbook: opened, and held to the promises of durability.
import { accessSync, constants, copyFileSync, existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Sqlite, { type Database } from 'better-sqlite3';
import { asLogbookError, LogbookError, logbookError } from './error.ts';
import { applicationId, format } from './schema.ts';

/** How long a writer waits for another one, in milliseconds. */
const patience = 10_000;

export type OpenFile = Readonly<{
  path: string;
  database: Database;
  format: number;
  readOnly: boolean;
  /** Closes the file and takes away a copy that was made to read it. */
  close(): void;
}>;

/**
 * Opens the file of a logbook; never makes one. What cannot be written, and what a newer program wrote, is
 * opened for reading.
 */
export function openFile(path: string, readOnly: boolean): OpenFile {
  mustBeThere(path);
  if (readOnly || !isWritable(path)) return openForReading(path);
  let database: Database | undefined;
  try {
    database = new Sqlite(path, { fileMustExist: true, timeout: patience });
    const found = formatOf(database, path);
    if (found > format) {
      database.close();
      return openForReading(path);
    }
    makeDurable(database, path);
    const opened = database;
    return { path, database, format: found, readOnly: false, close: () => void opened.close() };
  } catch (error) {
    database?.close();
    throw asLogbookError(error, path);
  }
}

function mustBeThere(path: string): void {
  try {
    if (!statSync(path).isFile()) throw logbookError('not-a-logbook', path);
    accessSync(path, constants.R_OK);
  } catch (error) {
    throw asLogbookError(error, path);
  }
}

/** SQLite needs the folder too, for the files that it keeps beside. */
function isWritable(path: string): boolean {
  try {
    accessSync(path, constants.W_OK);
    accessSync(dirname(path), constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/**
 * Reads where it lies if SQLite can. Where nothing may be written beside it (a stick, somebody else's folder) SQLite
 * cannot read a file in WAL mode, and a copy is read.
 */
function openForReading(path: string): OpenFile {
  try {
    return readerOf(path, path, existsSync(`${path}-wal`) || !isWritable(path), () => undefined);
  } catch (error) {
    if (error instanceof LogbookError && error.code !== 'unreadable' && error.code !== 'read-only')
      throw error;
  }
  return openCopy(path);
}

function openCopy(path: string): OpenFile {
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-'));
  const remove = (): void => rmSync(folder, { recursive: true, force: true });
  try {
    const copy = join(folder, 'copy');
    copyFileSync(path, copy, constants.COPYFILE_FICLONE);
    if (existsSync(`${path}-wal`)) copyFileSync(`${path}-wal`, `${copy}-wal`);
    return readerOf(path, copy, false, remove);
  } catch (error) {
    remove();
    throw asLogbookError(error, path);
  }
}

/**
 * @param untouched - the file must stay as it is even though a write-ahead log lies beside it. Otherwise SQLite may
 *   tidy up what it puts beside the file for reading.
 */
function readerOf(path: string, place: string, untouched: boolean, afterwards: () => void): OpenFile {
  let database: Database | undefined;
  try {
    database = new Sqlite(place, { fileMustExist: true, readonly: untouched, timeout: patience });
    database.pragma('query_only = ON');
    const opened = database;
    const close = (): void => {
      opened.close();
      afterwards();
    };
    return { path, database, format: formatOf(database, path), readOnly: true, close };
  } catch (error) {
    database?.close();
    throw asLogbookError(error, path);
  }
}

/**
 * The format of the file, after a look at whether it is a logbook at all. SQLite looks: another handle on the file
 * would take the locks of this process with it when it is closed (https://www.sqlite.org/howtocorrupt.html, 2.2).
 */
function formatOf(database: Database, path: string): number {
  if (database.pragma('application_id', { simple: true }) !== applicationId)
    throw logbookError('not-a-logbook', path);
  const found = Number(database.pragma('user_version', { simple: true }));
  if (found < 1) throw logbookError('not-a-logbook', path);
  return found;
}

/**
 * What was acknowledged must survive a power cut. SQLite as built here opens an existing file in WAL mode with
 * synchronous=NORMAL, which does not promise that; hence set and looked at on every open.
 */
function makeDurable(database: Database, path: string): void {
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  // On macOS a plain fsync leaves the data in the drive's cache.
  database.pragma('fullfsync = 1');
  database.pragma('checkpoint_fullfsync = 1');
  // What is erased must be gone from the file, not only from the tables.
  database.pragma('secure_delete = ON');
  const journal = database.pragma('journal_mode', { simple: true });
  const synchronous = database.pragma('synchronous', { simple: true });
  if (journal !== 'wal' || synchronous !== 2) {
    throw new LogbookError(
      'input-output',
      path,
      `SQLite does not promise here to keep what it acknowledged (journal ${journal}, synchronous ${synchronous}). Keep the logbook on a disk of this machine.`,
    );
  }
}

/** What reading throws, in words for a person. */
export function read<T>({ path }: OpenFile, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw asLogbookError(error, path);
  }
}

/**
 * Runs `work` as one transaction that no other writer can come between: all of it or nothing.
 * @param wait - for how many milliseconds another writer may keep it from starting
 * @throws LogbookError
 */
export function write<T>(file: OpenFile, work: () => T, wait = patience): T {
  return inTransaction(file, work, wait, 'COMMIT');
}

/** Runs `work` as `write` does, and takes all of it back: what it gives is what it would have come to. */
export function tryOut<T>(file: OpenFile, work: () => T): T {
  return inTransaction(file, work, patience, 'ROLLBACK');
}

function inTransaction<T>(file: OpenFile, work: () => T, wait: number, end: 'COMMIT' | 'ROLLBACK'): T {
  const { database, path } = file;
  if (file.readOnly) throw logbookError('read-only', path);
  try {
    begin(database, wait);
    const result = work();
    database.exec(end);
    return result;
  } catch (error) {
    rollBack(database);
    throw asLogbookError(error, path);
  }
}

function begin(database: Database, wait: number): void {
  if (wait !== patience) database.pragma(`busy_timeout = ${wait}`);
  try {
    database.exec('BEGIN IMMEDIATE');
  } finally {
    if (wait !== patience) database.pragma(`busy_timeout = ${patience}`);
  }
}

function rollBack(database: Database): void {
  if (!database.open || !database.inTransaction) return;
  try {
    database.exec('ROLLBACK');
  } catch (error) {
    // A disk that fails may have rolled back already; the first error is the one to tell.
    if (database.inTransaction) throw error;
  }
}
