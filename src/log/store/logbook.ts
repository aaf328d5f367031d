// Starting and opening a logbook.
import type { Log } from './port.ts';

export type OpenOptions = Readonly<{ readOnly?: boolean }>;

/**
 * Starts an empty logbook.
 * @throws LogbookError 'exists' when there is a file of that name
 */
export function createLogbook(_path: string): Promise<Log> {
  throw new Error('Being written.');
}

/**
 * Opens a logbook; never makes one.
 * @throws LogbookError 'missing', 'not-a-logbook', 'unreadable', 'locked'
 */
export function openLogbook(_path: string, _options: OpenOptions = {}): Promise<Log> {
  throw new Error('Being written.');
}
