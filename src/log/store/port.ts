// The port: what the rest of the program may ask of a logbook, whatever keeps it. Asynchronous, so that a
// database on a server can stand behind it too.
import type { EntryIssue, Envelope, SealedRow, Signature, TreeHead } from '../entry/index.ts';

export type { SealedRow };

/** An entry on its way into the log, as its device wrote it. */
export type Incoming = Readonly<{
  bytes: Uint8Array;
  signature?: Signature;
  /** The rows that the entry's `sealed` names, unless the log has them already or they may follow. */
  sealed?: readonly SealedRow[];
  /** What is wrong with the way it came, found before this: it is kept aside. */
  issue?: EntryIssue;
}>;

/** An entry in the log, with the logbook's receipt. */
export type Stored = Readonly<{
  /** 0, 1, 2 … without gaps. */
  position: number;
  /** RFC 3339 in UTC with milliseconds; never earlier than that of the entry before. */
  receivedAt: string;
  bytes: Uint8Array;
  id: string;
  signature?: Signature;
}>;

/** What became of one incoming entry. */
export type Receipt = Readonly<
  | {
      outcome: 'recorded' | 'already-recorded';
      id: string;
      position: number;
      receivedAt: string;
    }
  /** Same id, other bytes: `position` is the one that stands, `aside` where the other is kept. */
  | { outcome: 'conflict'; id: string; position: number; aside: number }
  | { outcome: 'unreadable'; issue: EntryIssue; aside: number }
>;

/** Something that could not be recorded, kept for a person to look at. */
export type Aside = Readonly<{
  number: number;
  receivedAt: string;
  bytes: Uint8Array;
  issue: EntryIssue;
  /** Position of the entry that has the same id and other bytes. */
  conflictsWith?: number;
  /**
   * Position of the entry that stands under the same id, so that nothing remains to be done. A conflict is never
   * settled this way.
   */
  settledBy?: number;
  signature?: Signature;
  /** Rows that came with it. */
  sealed: readonly SealedRow[];
}>;

/**
 * Looks at an entry that is whole and new; an issue puts it aside, the others of its batch go in. It is asked last, in
 * the order of the batch: an entry that it lets pass is recorded.
 */
export type IncomingCheck = (envelope: Envelope, incoming: Incoming) => EntryIssue | undefined;

/** Whether the erasable rows of an entry may come after it. */
export type MayFollow = (envelope: Envelope) => boolean;

export type AppendOptions = Readonly<{
  check?: IncomingCheck;
  /** Without it all rows have to come with their entry. */
  rowsMayFollow?: MayFollow;
  /** Says what would become of the entries; nothing is kept. */
  dryRun?: boolean;
}>;
export type ComposeOptions = Readonly<{
  check?: IncomingCheck;
  /** The last sequence number that the device remembers having used; the log may know of less. */
  floor?: number;
}>;

/**
 * What became of a row that came after its entry: kept; there already, so that nothing changed; erased, so that it
 * does not come back; or refused, because the entry does not name it or because it is not what its hash says.
 */
export type Supplied = 'kept' | 'already-kept' | 'erased' | 'not-named' | 'changed';

export type LogbookFacts = Readonly<{
  path: string;
  /** Id of the entry at position 0: the logbook's identity. Absent while it is empty. */
  logbook?: string;
  /** Format of the file. */
  format: number;
  readOnly: boolean;
  /** Written by a newer program; reading is all that can be done here. */
  newer: boolean;
}>;

/** Finds entries by keys that the caller draws out of them; a cache, never evidence. */
export type Lookup = Readonly<{
  /** Positions of the entries that have any of the keys, in order. */
  positions(keys: readonly string[]): Promise<number[]>;
  /** The same as entries. */
  entries(keys: readonly string[]): Promise<Stored[]>;
}>;

export type BackupMade = Readonly<{
  /** RFC 3339. */
  at: string;
  /** Name of the file. */
  name: string;
  head: TreeHead;
}>;

export type Log = Readonly<{
  facts(): LogbookFacts;
  head(): Promise<TreeHead>;
  /**
   * Root that the log had when it held `size` entries, by the stored tree.
   * @throws RangeError when it never held so many
   */
  rootAt(size: number): Promise<string>;
  /**
   * Appends entries: all receipts or an error and nothing appended. No entries: nothing happens.
   * @param receivedAt - RFC 3339 with offset; an earlier time than the last one's becomes the last one's
   * @throws LogbookError when the file is read-only, locked for more than 10 s, full, or fails
   */
  append(incoming: readonly Incoming[], receivedAt: string, options?: AppendOptions): Promise<Receipt[]>;
  /**
   * Appends entries that this device composes: nobody else writes between the choice of the sequence number
   * and the append.
   * @param make - is given the next free number; its entries take that and the ones after it
   */
  compose(
    device: string,
    make: (firstSeq: number) => readonly Incoming[],
    receivedAt: string,
    options?: ComposeOptions,
  ): Promise<Receipt[]>;
  /** Entries in order of position, in pages of up to 1,000; `from` included, `to` not. */
  read(range?: { readonly from?: number; readonly to?: number }): AsyncIterable<readonly Stored[]>;
  get(id: string): Promise<Stored | undefined>;
  /** The highest sequence number that the log has of a device; 0 when none. */
  lastSeq(device: string): Promise<number>;
  at(position: number): Promise<Stored | undefined>;
  /**
   * How many entries had been received by a time, that time included: what was known then.
   * @param time - RFC 3339 with offset
   */
  sizeReceivedBy(time: string): Promise<number>;
  aside(): Promise<readonly Aside[]>;
  /** Keeps bytes that are no entry; the same bytes are kept once. Gives their number, counted from 1. */
  setAside(bytes: Uint8Array, issue: EntryIssue, receivedAt: string): Promise<number>;
  sealed(hash: string): Promise<SealedRow | undefined>;
  /**
   * Gives a row that an entry in the log names and that did not come with it; any number of times.
   * @param entry - id of the entry that names it
   */
  supplySealed(row: SealedRow, entry: string): Promise<Supplied>;
  /** Those of the hashes whose row is not here and was not erased either. */
  missingRows(hashes: readonly string[]): Promise<string[]>;
  /** Proof that the entry is in the log as it was at `size`; hashes from leaf to root. */
  inclusionProof(position: number, size: number): Promise<Uint8Array[]>;
  /** Proof that the log of `to` entries begins with the log of `from` entries. */
  consistencyProof(from: number, to: number): Promise<Uint8Array[]>;
  /**
   * @param keysOf - draws the keys out of an entry; the same entry always gives the same keys, and none begins
   *   with an end of line
   * @param version - names what keysOf does; another version makes the cache anew
   */
  lookup(keysOf: (stored: Stored) => readonly string[], version: string): Lookup;
  noteBackup(backup: BackupMade): Promise<void>;
  lastBackup(): Promise<BackupMade | undefined>;
  close(): Promise<void>;
}>;
