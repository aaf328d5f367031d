// One verified file that holds everything, and the way back.
import { rmSync } from 'node:fs';
import { basename } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { TreeHead } from '../entry/index.ts';
import { openFile } from './database.ts';
import { forgetDevice, recallDevice } from './device.ts';
import { asLogbookError, LogbookError } from './error.ts';
import { openLogbook } from './logbook.ts';
import { besideOf, mustBePlaceable, putInPlace } from './new-file.ts';
import type { BackupMade, Log } from './port.ts';
import type { VerifyOptions } from './verification.ts';
import { verifyLogbook } from './verify.ts';

/** What a copy is held to, and who is told how far that is; signatures are not for a copy to judge. */
export type CopyChecks = Pick<VerifyOptions, 'rowsMayFollow' | 'progress'>;

export type Restored = Readonly<{
  head: TreeHead;
  /** The head that this machine remembers of that place, when it was further on: later entries are lost. */
  ahead?: TreeHead;
}>;

/**
 * Writes everything into one new file, consistent while others write, verifies it, and notes it in the logbook
 * if that can be written to.
 *
 * @param at - when, RFC 3339
 * @throws LogbookError 'exists' when there is a file of that name; 'unreadable' when the copy does not verify
 */
export async function backupLogbook(
  log: Log,
  target: string,
  at = new Date().toISOString(),
  checks: CopyChecks = {},
): Promise<BackupMade> {
  const { path, readOnly } = log.facts();
  const made = { at, name: basename(target), head: await copyVerified(path, target, checks) };
  if (!readOnly) await log.noteBackup(made);
  return made;
}

/**
 * Puts the logbook of a backup in an empty place, verified. This machine is a new device there, even if it
 * had written there before: numbers that it gave out after the backup are not given out again.
 *
 * @param home - where this machine keeps what it remembers; by default as `recallDevice` finds it
 * @throws LogbookError 'exists' when there is a file of that name; 'unreadable' when the backup does not verify
 */
export async function restoreLogbook(
  backup: string,
  target: string,
  home?: string,
  checks: CopyChecks = {},
): Promise<Restored> {
  const head = await copyVerified(backup, target, checks);
  const log = await openLogbook(target, { readOnly: true });
  const { logbook } = log.facts();
  await log.close();
  if (logbook === undefined) return { head };
  const remembered = recallDevice(target, logbook, home)?.lastHead;
  forgetDevice(target, logbook, home);
  return remembered !== undefined && remembered.size > head.size ? { head, ahead: remembered } : { head };
}

/** Copies one state of a logbook under a new name; nothing has that name before the copy is verified. */
async function copyVerified(source: string, target: string, checks: CopyChecks): Promise<TreeHead> {
  mustBePlaceable(target);
  const beside = besideOf(target);
  try {
    writeCopy(source, beside);
    const { ok, problems, size, root } = await verifyLogbook(beside, checks);
    if (!ok) {
      throw new LogbookError(
        'unreadable',
        source,
        `no copy was made, because this logbook does not verify. ${problems[0]?.sentence ?? ''} Keep the file as it is, and look for an older backup.`,
      );
    }
    putInPlace(beside, target);
    return { size, root };
  } catch (error) {
    throw asLogbookError(error, target);
  } finally {
    for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(`${beside}${ending}`, { force: true });
  }
}

function writeCopy(source: string, target: string): void {
  const file = openFile(source, true);
  try {
    // SQLite counts it as writing, though it writes into the copy only.
    file.database.pragma('query_only = OFF');
    file.database.prepare('VACUUM INTO ?').run(target);
  } finally {
    file.close();
  }
  // A copy is one file, that can be read from where nothing can be written.
  const copy = new Sqlite(target, { fileMustExist: true });
  try {
    copy.pragma('journal_mode = DELETE');
  } finally {
    copy.close();
  }
}
