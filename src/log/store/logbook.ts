// Starting and opening a logbook.
import { type OpenFile, openFile } from './database.ts';
import { asLogbookError, errorCode, tablesChanged } from './error.ts';
import { createFile } from './new-file.ts';
import type { Log } from './port.ts';
import { format } from './schema.ts';
import { logOn } from './sqlite.ts';

export type OpenOptions = Readonly<{
  /** Read only, even where writing would be possible. */
  readOnly?: boolean;
}>;

/**
 * Starts an empty logbook.
 * @throws LogbookError 'exists' when there is a file of that name; 'missing' when its folder is not there
 */
export async function createLogbook(path: string): Promise<Log> {
  createFile(path);
  return logOf(openFile(path, false));
}

/**
 * Opens a logbook; never makes one. Where nothing can be written it opens for reading, likewise when a newer
 * program wrote the file: facts() says so.
 * @throws LogbookError 'missing', 'not-a-logbook', 'unreadable', 'locked', 'input-output'
 */
export async function openLogbook(path: string, options: OpenOptions = {}): Promise<Log> {
  return logOf(openFile(path, options.readOnly ?? false));
}

/** The log in a file; tables that are not as this program knows them are an error with a remedy. */
function logOf(file: OpenFile): Log {
  try {
    return logOn(file);
  } catch (error) {
    file.close();
    if (errorCode(error) !== 'SQLITE_ERROR') throw asLogbookError(error, file.path);
    throw tablesChanged(file.path, file.format > format, error);
  }
}
