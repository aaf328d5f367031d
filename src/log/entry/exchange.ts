// The exchange line: one entry on its way between a device and the logbook, with what goes beside it. The same line
// goes over HTTP, into the outbox file of a phone and into a copy of the logbook.
import { fromBase64, toBase64 } from './base64.ts';
import type { EntryIssue } from './envelope.ts';
import type { Signature } from './hashing.ts';
import { isTime } from './time.ts';

/** Bytes about a person, a photo: an entry holds `hash`, this row holds the rest and can be erased. */
export type SealedRow = Readonly<{
  /** Hex SHA-256(salt ‖ bytes). */
  hash: string;
  /** 16 random bytes. */
  salt: Uint8Array;
  bytes: Uint8Array;
  /** A hint how to show the bytes. It is under no hash, so nothing may be concluded from it. */
  mediaType: string;
}>;

/** Where the logbook keeps an entry, and since when. */
export type Place = Readonly<{
  /** 0, 1, 2 … */
  position: number;
  /** RFC 3339 in UTC. */
  receivedAt: string;
}>;

export type ExchangeLine = Readonly<{
  /** The bytes of the entry. */
  bytes: Uint8Array;
  signature?: Signature | undefined;
  /** Rows that the entry names and that go with it; others may follow, or be there already. */
  sealed?: readonly SealedRow[] | undefined;
  /** Only in lines that the logbook wrote. */
  receipt?: Place | undefined;
}>;

/** The same as JSON. */
export type ExchangeJson = Readonly<{
  /** The text of the entry: its bytes, read as UTF-8. */
  entry: string;
  signature?: Signature;
  sealed?: readonly Readonly<{ hash: string; salt: string; bytes: string; mediaType: string }>[];
  receipt?: Place;
}>;

export type ExchangeReading =
  | Readonly<{ ok: true; line: ExchangeLine }>
  | Readonly<{ ok: false; issue: EntryIssue }>;

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/**
 * The JSON of a line.
 * @throws TypeError when the bytes of the entry are no UTF-8
 */
export function exchangeJson({ bytes, signature, sealed, receipt }: ExchangeLine): ExchangeJson {
  return {
    entry: decoder.decode(bytes),
    ...(signature === undefined
      ? {}
      : { signature: { keyId: signature.keyId, signature: signature.signature } }),
    ...(sealed === undefined || sealed.length === 0
      ? {}
      : {
          sealed: sealed.map((row) => ({
            hash: row.hash,
            salt: toBase64(row.salt),
            bytes: toBase64(row.bytes),
            mediaType: row.mediaType,
          })),
        }),
    ...(receipt === undefined
      ? {}
      : { receipt: { position: receipt.position, receivedAt: receipt.receivedAt } }),
  };
}

/**
 * The text of a line, without a line end.
 * @throws TypeError when the bytes of the entry are no UTF-8
 */
export function writeExchangeLine(line: ExchangeLine): string {
  return JSON.stringify(exchangeJson(line));
}

/** Reads a line that `writeExchangeLine` wrote. Whether the entry in it is one is asked by `parseEnvelope`. */
export function readExchangeLine(text: string): ExchangeReading {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refuse('line', text, 'this is not JSON; send the line as the device wrote it');
  }
  return readExchangeJson(value);
}

/** Whether a JSON value is an exchange line, sound or not, and no bare entry. */
export function isExchangeJson(value: unknown): value is Readonly<Record<string, unknown>> {
  return isObject(value) && Object.hasOwn(value, 'entry');
}

/** Reads a line that is JSON already. */
export function readExchangeJson(value: unknown): ExchangeReading {
  if (!isObject(value)) return refuse('line', value, 'a line is a JSON object with the member "entry"');
  const stranger = Object.keys(value).find((name) => !members.has(name));
  if (stranger !== undefined)
    return refuse(stranger, value[stranger], 'a line has no such member; leave it out');
  const { entry, signature, sealed, receipt } = value;
  if (typeof entry !== 'string')
    return refuse('entry', entry, 'write the text of the entry as a JSON string');
  // Bytes would come out of it that the device never wrote.
  if (/\p{Surrogate}/u.test(entry))
    return refuse('entry', entry, 'the text holds half a surrogate pair; send it as the device wrote it');
  if (signature !== undefined && !isSignature(signature))
    return refuse('signature', signature, 'write {"keyId": hex, "signature": base64}');
  if (receipt !== undefined && !isPlace(receipt))
    return refuse('receipt', receipt, 'write {"position": number, "receivedAt": RFC 3339 with offset}');
  const rows = sealed === undefined ? { rows: undefined } : readRows(sealed);
  if ('issue' in rows) return { ok: false, issue: rows.issue };
  return {
    ok: true,
    line: {
      bytes: encoder.encode(entry),
      ...(signature === undefined ? {} : { signature }),
      ...(rows.rows === undefined ? {} : { sealed: rows.rows }),
      ...(receipt === undefined ? {} : { receipt }),
    },
  };
}

const members: ReadonlySet<string> = new Set(['entry', 'signature', 'sealed', 'receipt']);

function readRows(sealed: unknown): { rows: SealedRow[] } | { issue: EntryIssue } {
  if (!Array.isArray(sealed)) return { issue: issueOf('sealed', sealed, 'write a list of rows') };
  const rows: SealedRow[] = [];
  for (const [index, value] of (sealed as unknown[]).entries()) {
    const row = isObject(value) ? readSealedJson(value.hash, value) : undefined;
    if (row === undefined)
      return {
        issue: issueOf(
          `sealed.${index}`,
          value,
          'a row is {"hash": hex, "salt": base64, "bytes": base64, "mediaType": text}',
        ),
      };
    rows.push(row);
  }
  return { rows };
}

/** A row of that hash from JSON; undefined when a member is not what it ought to be. Its hash is not computed. */
export function readSealedJson(
  hash: unknown,
  { salt, bytes, mediaType }: Readonly<Record<string, unknown>>,
): SealedRow | undefined {
  if (typeof salt !== 'string' || typeof bytes !== 'string') return undefined;
  if (typeof mediaType !== 'string' || mediaType.length > 200) return undefined;
  if (typeof hash !== 'string' || !/^[0-9a-f]{64}$/.test(hash)) return undefined;
  const [rawSalt, rawBytes] = [fromBase64(salt), fromBase64(bytes)];
  if (rawSalt === undefined || rawBytes === undefined) return undefined;
  return { hash, salt: rawSalt, bytes: rawBytes, mediaType };
}

/** What a signature must look like is asked by the log, which tells the members apart. */
function isSignature(value: unknown): value is Signature {
  return isObject(value) && typeof value.keyId === 'string' && typeof value.signature === 'string';
}

function isPlace(value: unknown): value is Place {
  return (
    isObject(value) &&
    Number.isSafeInteger(value.position) &&
    Number(value.position) >= 0 &&
    typeof value.receivedAt === 'string' &&
    isTime(value.receivedAt)
  );
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function refuse(field: string, value: unknown, remedy: string): ExchangeReading {
  return { ok: false, issue: issueOf(field, value, remedy) };
}

function issueOf(field: string, value: unknown, remedy: string): EntryIssue {
  const shown = typeof value === 'string' ? value : (JSON.stringify(value) ?? '');
  return { field, value: shown.slice(0, 80), remedy };
}
