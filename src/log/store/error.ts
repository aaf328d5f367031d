// What can go wrong with the file of a logbook, in words for the person at the keyboard.

export type LogbookErrorCode =
  | 'missing'
  | 'locked'
  | 'not-a-logbook'
  | 'unreadable'
  | 'read-only'
  | 'exists'
  | 'full'
  | 'input-output';

/** Says which file, what is the matter with it and what to do. */
export class LogbookError extends Error {
  readonly code: LogbookErrorCode;
  readonly path: string;

  constructor(code: LogbookErrorCode, path: string, sentence: string, cause?: unknown) {
    super(`${path}: ${sentence}`, cause === undefined ? undefined : { cause });
    this.name = 'LogbookError';
    this.code = code;
    this.path = path;
  }
}

const sentences: Readonly<Record<LogbookErrorCode, string>> = {
  missing: 'there is no such file. Check the path, or start a logbook there.',
  locked: 'another program has kept this logbook locked for 10 seconds. Close it or try again.',
  'not-a-logbook': 'this file is not a logbook. Check the path; nothing was changed.',
  unreadable: 'this file cannot be read. Check its permissions; if it is damaged, restore a backup.',
  'read-only': 'this logbook can only be read here. Make the file and its folder writable, or copy it.',
  exists: 'there is a file of that name already. Choose another name; nothing was changed.',
  full: 'the disk is full, so nothing was recorded. Make room and record it again.',
  'input-output': 'the disk reported an error, so nothing was recorded. Check it, then record it again.',
};

/** The error for a code, with its usual sentence. */
export function logbookError(code: LogbookErrorCode, path: string, cause?: unknown): LogbookError {
  return new LogbookError(code, path, sentences[code], cause);
}

/** What is in the file contradicts itself. */
export function damaged(path: string, what: string, cause?: unknown): LogbookError {
  return new LogbookError(
    'unreadable',
    path,
    `${what}. Nothing more is recorded in it. Run "gapledger verify" to see what was changed; if it is damaged, restore a backup.`,
    cause,
  );
}

/** Tables are not as this program knows them. */
export function tablesChanged(path: string, newer: boolean, cause: unknown): LogbookError {
  const sentence = newer
    ? 'a newer program wrote this logbook in a way that this one cannot read. Use the newer program.'
    : 'tables of this logbook are missing or changed. Keep the file as it is, and restore a backup elsewhere.';
  return new LogbookError('unreadable', path, sentence, cause);
}

/** Codes of SQLite and of the operating system, by their beginning; the first that fits counts. */
const codes: readonly (readonly [string, LogbookErrorCode])[] = [
  ['SQLITE_BUSY', 'locked'],
  ['SQLITE_LOCKED', 'locked'],
  ['SQLITE_FULL', 'full'],
  ['SQLITE_READONLY', 'read-only'],
  ['SQLITE_NOTADB', 'not-a-logbook'],
  ['SQLITE_CORRUPT', 'unreadable'],
  ['SQLITE_CANTOPEN', 'unreadable'],
  ['SQLITE_PERM', 'unreadable'],
  ['SQLITE_AUTH', 'unreadable'],
  // The file beside could not be lengthened: in practice for want of room.
  ['SQLITE_IOERR_SHMSIZE', 'full'],
  ['SQLITE_IOERR', 'input-output'],
  ['ENOENT', 'missing'],
  ['ENOTDIR', 'missing'],
  ['EEXIST', 'exists'],
  ['ENOSPC', 'full'],
  ['EDQUOT', 'full'],
  ['EROFS', 'read-only'],
  ['EACCES', 'unreadable'],
  ['EPERM', 'unreadable'],
  ['EIO', 'input-output'],
];

/** Turns what SQLite or the file system threw into a LogbookError; anything else is given back as it is. */
export function asLogbookError(error: unknown, path: string): unknown {
  const code = errorCode(error);
  if (error instanceof LogbookError || code === undefined) return error;
  // The triggers of the log and its unique columns refuse only what a sound logbook never asks for.
  if (code.startsWith('SQLITE_CONSTRAINT'))
    return damaged(path, 'what this logbook holds does not fit together', error);
  const known = codes.find(([start]) => code.startsWith(start));
  return known ? logbookError(known[1], path, error) : error;
}

/** The code of an error of SQLite or of the operating system. */
export function errorCode(error: unknown): string | undefined {
  if (!(error instanceof Error) || !('code' in error)) return undefined;
  return typeof error.code === 'string' ? error.code : undefined;
}
