// The lines of an outbox or of a copy: exchange lines, and entries by themselves as a device wrote them. An entry's
// bytes are taken in verbatim.
import { isExchangeJson, readExchangeJson } from '../log/entry/index.ts';
import type { Incoming } from '../log/store/index.ts';

const newline = 0x0a;
const carriageReturn = 0x0d;
const decoder = new TextDecoder('utf-8', { fatal: true });

export type OutboxLine = Readonly<{ number: number; incoming: Incoming }>;

/** The lines of a body that hold something. A line's bytes are never touched, but for a CR before its end. */
export function outboxLines(body: Uint8Array): OutboxLine[] {
  const lines: OutboxLine[] = [];
  for (let start = 0, number = 1; start < body.length; number += 1) {
    const end = body.indexOf(newline, start);
    const stop = end === -1 ? body.length : end;
    const bytes = body.slice(start, body[stop - 1] === carriageReturn && stop > start ? stop - 1 : stop);
    if (!bytes.every(isBlank)) lines.push({ number, incoming: incomingFrom(bytes) });
    start = stop + 1;
  }
  return lines;
}

/** What came as a JSON value that ought to be an exchange line; what is none is kept as it came. */
export function exchangeIncoming(value: unknown): Incoming {
  return incomingOf(value, () => new TextEncoder().encode(JSON.stringify(value)));
}

/** An exchange line is opened; anything else is an entry by itself, or will be found to be none. */
function incomingFrom(bytes: Uint8Array): Incoming {
  let value: unknown;
  try {
    value = JSON.parse(decoder.decode(bytes));
  } catch {
    return { bytes };
  }
  return isExchangeJson(value) ? incomingOf(value, () => bytes) : { bytes };
}

/** @param asItCame the bytes to be kept where it cannot be read */
function incomingOf(value: unknown, asItCame: () => Uint8Array): Incoming {
  const reading = readExchangeJson(value);
  if (!reading.ok) return { bytes: asItCame(), issue: reading.issue };
  const { bytes, signature, sealed } = reading.line;
  return {
    bytes,
    ...(signature === undefined ? {} : { signature }),
    ...(sealed === undefined ? {} : { sealed }),
  };
}

/** Space or tab; a line of nothing else holds nothing. */
function isBlank(byte: number): boolean {
  return byte === 0x20 || byte === 0x09;
}
