// One verified file that holds everything, and the way back.
import type { TreeHead } from '../entry/index.ts';
import type { BackupMade, Log } from './port.ts';

export type Restored = Readonly<{
  head: TreeHead;
  /** The head that this machine remembers of the place restored to, when that was further on. */
  ahead?: TreeHead;
}>;

/**
 * Writes a copy, consistent while others write, verifies it, and notes it in the logbook.
 * @throws LogbookError 'exists' when there is a file of that name
 */
export function backupLogbook(
  _log: Log,
  _target: string,
  _at = new Date().toISOString(),
): Promise<BackupMade> {
  throw new Error('Being written.');
}

/**
 * Puts a verified backup in an empty place; this machine is a new device there.
 * @throws LogbookError 'exists' when there is a file of that name
 */
export function restoreLogbook(_backup: string, _target: string): Promise<Restored> {
  throw new Error('Being written.');
}
