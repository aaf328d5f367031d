// Invented entries, for tests, for the programs that tests start, and for the bench.
import { createHash } from 'node:crypto';
import { type Envelope, type JsonBody, writeEntry } from '../../src/log/entry/index.ts';

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
