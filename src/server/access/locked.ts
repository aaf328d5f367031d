// One process at a time changes a file: the server may pair a device while a command revokes another.
import { mkdirSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';

/** Milliseconds: how long one waits for another process, and after which a lock was left behind by a dead one. */
const longestWait = 5_000;
const staleAfter = 10_000;

/**
 * Does the work while no other process does work on this file.
 * @throws Error when another process keeps the file locked
 */
export function locked<T>(file: string, work: () => T): T {
  const lock = `${file}.lock`;
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  const until = Date.now() + longestWait;
  while (!taken(lock)) {
    if (Date.now() > until)
      throw new Error(`${file} is locked by another program. If none is running, remove the folder ${lock}.`);
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
  }
  try {
    return work();
  } finally {
    rmSync(lock, { recursive: true, force: true });
  }
}

function taken(lock: string): boolean {
  try {
    mkdirSync(lock);
    return true;
  } catch (error) {
    if (!isCode(error, 'EEXIST')) throw error;
  }
  const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs;
  if (since !== undefined && Date.now() - since > staleAfter) rmSync(lock, { recursive: true, force: true });
  return false;
}

export function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}
