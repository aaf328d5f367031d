// The envelope: what every entry carries around its body. A device writes it once, as canonical bytes
// (RFC 8785); the log keeps those bytes and never writes them again.
import { canonicalText, deepestNesting, isCanonical, orderOf } from './canonical.ts';
import { isTime } from './time.ts';

/** How well a time is known. */
export type Precision = 'instant' | 'minute' | 'day';
/** RFC 3339 with offset; known to the day only: local midnight at the start of that day. */
export type Happened = Readonly<{ at: string; precision: Precision }>;

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
export type JsonBody = { readonly [key: string]: Json };

export type Envelope = Readonly<{
  /** UUIDv7, made by the device. */
  id: string;
  /** Kind of entry, in kebab case. */
  type: string;
  /** Version of the body's schema. */
  v: number;
  happenedAt: Happened;
  /** When it was written down, by the device's clock; RFC 3339 with offset. */
  recordedAt: string;
  /** UUID of the person. */
  by: string;
  /** UUID of the device. */
  device: string;
  /** 1, 2, 3 … on that device. */
  seq: number;
  /** Hex SHA-256(salt ‖ bytes) of the erasable rows that this entry refers to. */
  sealed?: readonly string[];
  /** Sealed hashes that this entry erases. */
  erases?: readonly string[];
  body: JsonBody;
}>;

/** What is wrong with an entry, and what to do about it. */
export type EntryIssue = Readonly<{ field: string; value: string; remedy: string }>;
export type EnvelopeReading = { ok: true; envelope: Envelope } | { ok: false; issue: EntryIssue };

/** An entry is at most this long; photos go beside it as sealed rows. */
export const longestEntry = 65_535;

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const uuid7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const kebab = /^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/;
const hash = /^[0-9a-f]{64}$/;
const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/**
 * Reads the bytes of an entry from outside and checks everything that the log relies on: strict UTF-8,
 * canonical JSON, every member of the envelope. What a body means is for others to judge.
 */
export function parseEnvelope(bytes: Uint8Array): EnvelopeReading {
  if (bytes.length > longestEntry) {
    return refuse(
      'entry',
      `${bytes.length} bytes`,
      `an entry is at most ${longestEntry} bytes; put photos and files beside it`,
    );
  }
  let text: string;
  try {
    text = decoder.decode(bytes);
  } catch {
    return refuse('entry', preview(bytes), 'this is not UTF-8; send the bytes as the device wrote them');
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refuse('entry', text.slice(0, 80), 'this is not JSON; send the line as the device wrote it');
  }
  const order = orderOf(value);
  if (order === 'too-deep') {
    return refuse('entry', text.slice(0, 80), `lists and objects nest at most ${deepestNesting} deep`);
  }
  if (!isObject(value)) return refuse('entry', text.slice(0, 80), 'an entry is a JSON object');
  const issue = checkMembers(value);
  if (issue) return { ok: false, issue };
  if (!isCanonical(value, text, order)) {
    return refuse(
      'entry',
      text.slice(0, 80),
      'these bytes are not canonical JSON (RFC 8785): members sorted, no spaces, no member twice; send them as the device wrote them',
    );
  }
  return { ok: true, envelope: value as unknown as Envelope };
}

/** Reads bytes that the log has accepted before; checks nothing. */
export function readEnvelope(bytes: Uint8Array): Envelope {
  return JSON.parse(decoder.decode(bytes)) as Envelope;
}

/**
 * The canonical bytes of an entry (RFC 8785).
 * @throws TypeError when a text holds half a surrogate pair or a number is no number
 */
export function writeEntry(envelope: Envelope): Uint8Array {
  const text = canonicalText(envelope);
  if (text === undefined) throw new TypeError('An entry holds text or a number that JSON cannot keep.');
  return encoder.encode(text);
}

/** One check for each member of the envelope: what it must look like, and the sentence when it does not. */
const members: Readonly<
  Record<string, { test: (value: unknown) => boolean; remedy: string; optional?: true }>
> = {
  id: { test: (value) => matches(uuid7, value), remedy: 'an entry has a UUID of version 7, in lower case' },
  type: {
    test: (value) => matches(kebab, value) && String(value).length <= 60,
    remedy: 'a kind is written in lower case with hyphens, such as stem-marked',
  },
  v: { test: isCounting, remedy: 'the version is a whole number from 1' },
  happenedAt: {
    test: isHappened,
    remedy: 'write {"at": RFC 3339 with offset, "precision": instant, minute or day}',
  },
  recordedAt: { test: isTimeText, remedy: 'write RFC 3339 with offset, such as 2026-03-14T09:30:00-05:00' },
  by: { test: (value) => matches(uuid, value), remedy: 'a person is named by UUID' },
  device: { test: (value) => matches(uuid, value), remedy: 'a device is named by UUID' },
  seq: { test: isCounting, remedy: 'the sequence number of a device is a whole number from 1' },
  sealed: { test: isHashes, remedy: 'a list of SHA-256 hashes in hex', optional: true },
  erases: { test: isHashes, remedy: 'a list of SHA-256 hashes in hex', optional: true },
  body: { test: isObject, remedy: 'the body is a JSON object' },
};
const required = Object.entries(members).filter(([, member]) => member.optional === undefined);

function checkMembers(entry: Record<string, unknown>): EntryIssue | undefined {
  for (const name of Object.keys(entry)) {
    if (!Object.hasOwn(members, name))
      return { field: name, value: shown(entry[name]), remedy: 'an entry has no such member; leave it out' };
  }
  for (const [name, member] of required) {
    if (entry[name] === undefined) return { field: name, value: '', remedy: `is missing: ${member.remedy}` };
  }
  for (const name of Object.keys(entry)) {
    const member = members[name];
    if (member && !member.test(entry[name]))
      return { field: name, value: shown(entry[name]), remedy: member.remedy };
  }
  return undefined;
}

function isHappened(value: unknown): boolean {
  return (
    isObject(value) &&
    Object.keys(value).length === 2 &&
    isTimeText(value.at) &&
    (value.precision === 'instant' || value.precision === 'minute' || value.precision === 'day')
  );
}

function isTimeText(value: unknown): boolean {
  return typeof value === 'string' && isTime(value);
}

function isCounting(value: unknown): boolean {
  return Number.isSafeInteger(value) && Number(value) >= 1;
}

function isHashes(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.length > 0 &&
    value.length <= 1000 &&
    value.every((item) => matches(hash, item))
  );
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function matches(pattern: RegExp, value: unknown): boolean {
  return typeof value === 'string' && pattern.test(value);
}

function refuse(field: string, value: string, remedy: string): EnvelopeReading {
  return { ok: false, issue: { field, value, remedy } };
}

function shown(value: unknown): string {
  return (JSON.stringify(value) ?? '').slice(0, 200);
}

function preview(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes.subarray(0, 80));
}
