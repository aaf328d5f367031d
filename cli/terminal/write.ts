// Files are written beside and renamed, never half; the folder is flushed, so that the name survives too.
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { exitCodes, Failure } from './failure.ts';

/**
 * Writes a whole file or nothing.
 * @throws Failure when the place cannot be written to
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const beside = `${path}.part-${process.pid}`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    const handle = openSync(beside, 'w');
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content) : content;
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, path);
    flushFolder(dirname(path));
  } catch (error) {
    if (existsSync(beside)) rmSync(beside, { force: true });
    throw new Failure(
      exitCodes.other,
      `${path}: could not be written (${error instanceof Error ? error.message : String(error)}).`,
    );
  }
}

function flushFolder(folder: string): void {
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
