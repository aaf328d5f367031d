// Invented entries and empty places for the tests of the log.
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Envelope, type JsonBody, type Signature, writeEntry } from '../../src/log/entry/index.ts';
import type { Log, SealedRow, Stored } from '../../src/log/store/index.ts';

export const deviceA = '6f1c2d1e-0000-4000-8000-00000000000a';
export const deviceB = '6f1c2d1e-0000-4000-8000-00000000000b';
export const person = '6f1c2d1e-0000-4000-8000-0000000000ff';
export const noon = '2026-03-14T17:00:00.000Z';

/** A UUID of version 7 that depends on the number alone. */
export function idOf(number: number, kind = 'entry'): string {
  const hex = createHash('sha256').update(`${kind} ${number}`).digest('hex');
  return `0195f000-0000-7${hex.slice(0, 3)}-8${hex.slice(3, 6)}-${hex.slice(6, 18)}`;
}

/** The envelope of an invented entry; the number gives its id and its sequence number. */
export function envelopeOf(number: number, changes: Partial<Envelope> = {}): Envelope {
  return {
    id: idOf(number),
    type: 'stem-marked',
    v: 1,
    happenedAt: { at: '2026-03-14T12:00:00-05:00', precision: 'minute' },
    recordedAt: '2026-03-14T12:00:05-05:00',
    by: person,
    device: deviceA,
    seq: number,
    body: { tag: `A${number}`, decision: 'cut' },
    ...changes,
  };
}

export function entryOf(number: number, changes: Partial<Envelope> = {}): Uint8Array {
  return writeEntry(envelopeOf(number, changes));
}

export function entryWithBody(number: number, body: JsonBody): Uint8Array {
  return entryOf(number, { body });
}

/** Entries `from` to `to`, both included, ready to append. */
export function entries(from: number, to: number): { bytes: Uint8Array }[] {
  return Array.from({ length: to - from + 1 }, (_, index) => ({ bytes: entryOf(from + index) }));
}

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
