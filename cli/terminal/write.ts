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
  const file = openBeside(path);
  try {
    file.add(content);
    file.putInPlace();
  } catch (error) {
    throw file.failure(error);
  }
}

/**
 * Writes a file whose parts are made while it is written; all of it or nothing.
 * @throws Failure when the place cannot be written to; and what making the parts throws
 */
export async function writeInParts(path: string, parts: AsyncIterable<string>): Promise<void> {
  const file = openBeside(path);
  try {
    for await (const part of parts) file.add(part);
    file.putInPlace();
  } catch (error) {
    throw file.failure(error);
  }
}

function openBeside(path: string) {
  const beside = `${path}.part-${process.pid}`;
  /** What the system refused is told with the path; other errors are as they are. */
  const failure = (error: unknown): unknown => {
    if (existsSync(beside)) rmSync(beside, { force: true });
    if (!(error instanceof Error) || !('syscall' in error)) return error;
    return new Failure(exitCodes.other, `${path}: could not be written (${error.message}).`);
  };
  let handle: number;
  try {
    mkdirSync(dirname(path), { recursive: true });
    handle = openSync(beside, 'w');
  } catch (error) {
    throw failure(error);
  }
  return {
    failure: (error: unknown): unknown => {
      closeSync(handle);
      return failure(error);
    },
    add(content: string | Uint8Array): void {
      const bytes = typeof content === 'string' ? Buffer.from(content) : content;
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
    },
    putInPlace(): void {
      fsyncSync(handle);
      renameSync(beside, path);
      flushFolder(dirname(path));
      closeSync(handle);
    },
  };
}

function flushFolder(folder: string): void {
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
