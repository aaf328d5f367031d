// Empty places and odd rows for the tests of the log; the invented entries come along.
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Signature } from '../../src/log/entry/index.ts';
import type { Log, SealedRow, Stored } from '../../src/log/store/index.ts';

export * from './invented.ts';

/** An empty folder that goes away with the test. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A path for a file in an empty folder that goes away with the test. */
export function emptyPlace(name = 'woods.logbook'): string {
  return join(emptyFolder(), name);
}

/** An erasable row with the hash it ought to have; the salt depends on the text alone. */
export function sealedRow(text: string, mediaType = 'text/plain'): SealedRow {
  const bytes = Buffer.from(text);
  const salt = createHash('sha256').update(`salt ${text}`).digest().subarray(0, 16);
  return { hash: createHash('sha256').update(salt).update(bytes).digest('hex'), salt, bytes, mediaType };
}

/** Something of the form of a signature; nobody made it with a key. */
export function signatureOf(text: string): Signature {
  return { keyId: '0a1b2c3d', signature: createHash('sha512').update(text).digest('base64') };
}

/** All entries of a log. */
export async function all(log: Log, range?: { from?: number; to?: number }): Promise<Stored[]> {
  const entries: Stored[] = [];
  for await (const page of log.read(range)) entries.push(...page);
  return entries;
}
