// What this machine keeps outside the logbook: its folder, and how files in it are written. They hold keys and
// hashes of tokens, so nobody else may read them, and a power cut leaves the old file or the new one.
import { createHash } from 'node:crypto';
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';

/** Where this machine keeps what is its own: $GAPLEDGER_HOME, else the XDG state folder. */
export function homeFolder(): string {
  const { GAPLEDGER_HOME: own, XDG_STATE_HOME: state } = process.env;
  if (own) return own;
  return join(state ? state : join(homedir(), '.local', 'state'), 'gapledger');
}

/** The file of a logbook at a place, in a folder of the home folder: a copy elsewhere is another one. */
export function fileOfLogbook(folder: string, path: string, logbook: string, home = homeFolder()): string {
  const name = createHash('sha256')
    .update(`${logbook}\n${realpathSync(path)}`)
    .digest('hex');
  return join(home, folder, `${name}.json`);
}

/**
 * Writes a whole file that only its owner may read, or nothing.
 * @throws Error of the system when it cannot be written
 */
export function writePrivateFile(file: string, text: string): void {
  const beside = `${file}.${process.pid}`;
  try {
    mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
    rmSync(beside, { force: true });
    const handle = openSync(beside, 'wx', 0o600);
    try {
      writeFileSync(handle, text);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, file);
    flushFolder(dirname(file));
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/** Makes the new name last, too. */
function flushFolder(folder: string): void {
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
