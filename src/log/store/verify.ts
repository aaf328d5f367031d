// Recomputes everything that the logbook claims.
import type { TreeHead } from '../entry/index.ts';
import type { Log } from './port.ts';

export type ProblemCode =
  | 'database'
  | 'format'
  | 'schema'
  | 'position'
  | 'bytes'
  | 'columns'
  | 'received-at'
  | 'leaf'
  | 'node'
  | 'head'
  | 'sealed-missing'
  | 'sealed-changed'
  | 'sealed-stray'
  | 'erased'
  | 'since'
  | 'remembered';

export type Problem = Readonly<{
  /** The entry, when the problem has one. */
  position?: number;
  what: ProblemCode;
  /** What is wrong, and what to do. */
  sentence: string;
}>;

/** The entries of one device. */
export type DeviceSequence = Readonly<{
  device: string;
  entries: number;
  last: number;
  /** Sequence numbers below the last that the log has not received (the first 100). */
  missing: readonly number[];
  /** Sequence numbers that came more than once (the first 100). */
  repeated: readonly number[];
}>;

export type Verification = Readonly<{
  ok: boolean;
  size: number;
  /** Hex root over the entries as they are now. */
  root: string;
  /** First bad position first; at most 1,000. */
  problems: readonly Problem[];
  notes: Readonly<{
    devices: readonly DeviceSequence[];
    /** Sealed rows that were erased properly. */
    erased: number;
    /** Entries kept aside. */
    aside: number;
    newer: boolean;
  }>;
}>;

export type VerifyOptions = Readonly<{
  /** A head written down earlier. */
  since?: TreeHead;
  /** The head that this machine remembers. */
  remembered?: TreeHead;
}>;

/**
 * Recomputes every hash of a logbook and compares; changes nothing.
 * @throws LogbookError when there is no logbook to look at
 */
export function verifyLogbook(_logbook: string | Log, _options: VerifyOptions = {}): Promise<Verification> {
  throw new Error('Being written.');
}
