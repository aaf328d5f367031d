// Entries as a device wrote them: one a line, taken in verbatim.
import type { Incoming } from '../log/store/index.ts';

const newline = 0x0a;
const carriageReturn = 0x0d;

export type OutboxLine = Readonly<{ number: number; incoming: Incoming }>;

/** The lines of a body that hold something. A line's bytes are never touched, but for a CR before its end. */
export function outboxLines(body: Uint8Array): OutboxLine[] {
  const lines: OutboxLine[] = [];
  for (let start = 0, number = 1; start < body.length; number += 1) {
    const end = body.indexOf(newline, start);
    const stop = end === -1 ? body.length : end;
    const bytes = body.slice(start, body[stop - 1] === carriageReturn && stop > start ? stop - 1 : stop);
    if (!bytes.every(isBlank)) lines.push({ number, incoming: { bytes } });
    start = stop + 1;
  }
  return lines;
}

/** Space or tab; a line of nothing else holds nothing. */
function isBlank(byte: number): boolean {
  return byte === 0x20 || byte === 0x09;
}
