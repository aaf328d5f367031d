// Making files: nothing has its name before it is finished, and no other file is ever written over.
import { randomUUID } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, linkSync, openSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { emptyRoot, toHex } from '../entry/index.ts';
import { asLogbookError, errorCode, LogbookError, logbookError } from './error.ts';
import { sha256 } from './hash.ts';
import { applicationId, format, schema } from './schema.ts';

/**
 * Makes the file of an empty logbook.
 * @throws LogbookError 'exists' when there is a file of that name; 'missing' when its folder is not there
 */
export function createFile(path: string): void {
  mustBePlaceable(path);
  const beside = besideOf(path);
  try {
    const database = new Sqlite(beside);
    try {
      database.pragma(`application_id = ${applicationId}`);
      database.pragma(`user_version = ${format}`);
      database.transaction(() => {
        for (const statement of schema) database.exec(statement);
        database.prepare('INSERT INTO head (one, size, root) VALUES (1, 0, ?)').run(toHex(emptyRoot(sha256)));
      })();
    } finally {
      database.close();
    }
    putInPlace(beside, path);
  } catch (error) {
    throw asLogbookError(error, path);
  } finally {
    rmSync(beside, { force: true });
  }
}

/**
 * Looks, before any work is done, whether a file can get this name.
 * @throws LogbookError 'exists' when there is a file of that name; 'missing' when its folder is not there
 */
export function mustBePlaceable(path: string): void {
  mustBeFree(path);
  mustBeFolder(dirname(path));
}

/** A name for a file that is not finished, in the folder where it will stand. */
export function besideOf(path: string): string {
  return join(dirname(path), `.${basename(path)}.${randomUUID()}.part`);
}

/** Gives a finished file its name, on the disk for good; never over another file. */
export function putInPlace(beside: string, path: string): void {
  mustBeFree(path);
  flush(beside);
  try {
    linkSync(beside, path);
  } catch (error) {
    if (errorCode(error) === 'EEXIST') throw logbookError('exists', path, error);
    renameInPlace(beside, path);
  }
  flush(dirname(path));
}

/** Memory sticks have file systems without links: the name is taken first, then the file moved onto it. */
function renameInPlace(beside: string, path: string): void {
  closeSync(openSync(path, 'wx'));
  try {
    renameSync(beside, path);
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  }
}

/** A write-ahead log that was left behind would be played into the new file. */
function mustBeFree(path: string): void {
  for (const ending of ['', '-wal', '-shm', '-journal']) {
    if (existsSync(`${path}${ending}`)) throw logbookError('exists', `${path}${ending}`);
  }
}

function mustBeFolder(path: string): void {
  if (!existsSync(path))
    throw new LogbookError('missing', path, 'there is no such folder. Make it first, or check the path.');
}

function flush(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
