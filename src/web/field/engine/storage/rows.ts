// What the phone keeps, record by record. These shapes stay readable for ever: an update adds members and stores,
// and never takes one away.
import type { Signature } from '../../../../log/entry/index.ts';
import type { Picture } from '../port.ts';

/** What the logbook said about an entry that it could not take. */
export type Refusal = Readonly<{
  outcome: 'conflict' | 'unreadable';
  field: string;
  value: string;
  remedy: string;
}>;

/** An entry: as it was written, and what became of it. */
export type EntryRow = Readonly<{
  id: string;
  /** The canonical bytes of the entry, as text. */
  text: string;
  signature?: Signature;
  /** Recorded by this device. */
  own: boolean;
  /** When it came to be here, milliseconds since 1970. */
  savedAt: number;
  /** Its sequence number, while the logbook has yet to confirm it. By this member the outbox is found. */
  waiting?: number;
  /** Its place in the logbook; present only when the logbook said so. */
  position?: number;
  receivedAt?: string;
  attention?: Refusal;
}>;

/** A text under seal: a name, a contact. */
export type SealedTextRow = Readonly<{
  hash: string;
  salt: Uint8Array;
  bytes: Uint8Array;
  mediaType: string;
}>;

/** A photo. It has a database of its own, for large records have taken whole databases down with them. */
export type PhotoRow = SealedTextRow &
  Readonly<{
    /** The entry that names it. */
    entry: string;
    /** 1 while the logbook has yet to get the bytes. */
    waiting?: 1;
    /** Written by earlier versions: why the logbook did not take the bytes. */
    refused?: string;
  }>;

/** A picture of a draft, in a database of its own for the same reason. */
export type PictureRow = Picture & Readonly<{ screen: string }>;

/** Single values by name; settings, remembered values and drafts have names of their own before a colon. */
export type Meta = Readonly<{
  device: string;
  /** The last sequence number that was used. */
  seq: number;
  label: string;
  person: string;
  personName: string;
  logbook: string;
  token: string;
  role: 'reader' | 'recorder' | 'keeper';
  /** The key that signs; the private half never leaves the browser. */
  keys: CryptoKeyPair;
  /** Everything before this position of the logbook has been read. */
  readTo: number;
  /** When the logbook last answered, milliseconds since 1970. */
  answeredAt: number;
  clockAhead: number;
  lastSeq: number;
  /** Which window exchanges just now, where there are no locks. */
  lease: Readonly<{ holder: string; until: number }>;
}>;
