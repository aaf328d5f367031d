// What a verification finds, and the notebook that its parts write into.
import type { DeviceKey, Envelope, TreeHead } from '../entry/index.ts';
import type { MayFollow } from './port.ts';

export type ProblemCode =
  /** SQLite itself finds the file damaged. */
  | 'database'
  /** A table or a trigger that keeps the log from being changed is not as it was made. */
  | 'schema'
  /** Positions that are missing or out of order. */
  | 'position'
  /** Bytes that are no entry. */
  | 'bytes'
  /** Columns that do not say what the bytes say. */
  | 'columns'
  /** A time of receipt that goes back. */
  | 'received-at'
  /** Bytes, time of receipt or signature are not those that were recorded. */
  | 'leaf'
  /** A signature that does not hold, or is missing where the device of the entry has a key. */
  | 'signature'
  /** Stored subtrees that do not follow from the entries. */
  | 'node'
  /** The stored head does not follow from the entries. */
  | 'head'
  | 'sealed-missing'
  | 'sealed-changed'
  /** A sealed row that no entry names. */
  | 'sealed-stray'
  /** An erasing and its record do not agree. */
  | 'erased'
  /** The log does not begin with the one that had the head written down earlier. */
  | 'since'
  /** The same for the head that this machine remembers. */
  | 'remembered';

export type Problem = Readonly<{
  /** The entry, when the problem has one. */
  position?: number;
  what: ProblemCode;
  /** What is wrong, for a person. */
  sentence: string;
}>;

/** The entries of one device. */
export type DeviceSequence = Readonly<{
  device: string;
  entries: number;
  /** Highest sequence number. */
  last: number;
  /** Sequence numbers below the last that the log has not received (the first 100). */
  missing: readonly number[];
  /** Sequence numbers that came more than once (the first 100). */
  repeated: readonly number[];
}>;

export type Verification = Readonly<{
  ok: boolean;
  /** Entries in the file. */
  size: number;
  /** Hex root over the entries as they are now. */
  root: string;
  /** First bad position first; at most 1,000. */
  problems: readonly Problem[];
  notes: Readonly<{
    devices: readonly DeviceSequence[];
    /** Sealed rows that were erased properly. */
    erased: number;
    /** Sealed rows that may come after their entry and have not come yet. */
    awaited: number;
    signatures: SignatureNotes;
    /** Things kept aside for a person to look at. */
    aside: number;
    /** Written by a newer program, so its tables were not compared. */
    newer: boolean;
  }>;
}>;

export type SignatureNotes = Readonly<{
  /** Entries with a signature, and without. */
  signed: number;
  unsigned: number;
  /** Signed entries of devices that the log has no key for: nobody can tell here whether the signature holds. */
  keyUnknown: number;
}>;

/** The key that an entry gives to a device; undefined for all other entries. */
export type KeysFrom = (envelope: Envelope) => Readonly<{ device: string; key: DeviceKey }> | undefined;

export type VerifyOptions = Readonly<{
  /** By which entries devices get keys; without it signatures are counted and not checked. */
  keysFrom?: KeysFrom;
  /**
   * Which entries may be here before their sealed rows; without it a row that is not here is missing. Whether such a
   * row never came or was taken away past this program cannot be told.
   */
  rowsMayFollow?: MayFollow;
  /** A head written down earlier, out of reach of whoever could change the file. */
  since?: TreeHead;
  /** The head that this machine remembers. */
  remembered?: TreeHead;
  /** Told now and then how far it is. */
  progress?: (done: number, of: number) => void;
}>;

const mostProblems = 1000;

/** Collects problems. */
export type Notebook = Readonly<{
  add(what: ProblemCode, sentence: string, position?: number): void;
  /** As they were added. */
  problems(): readonly Problem[];
}>;

export function openNotebook(): Notebook {
  const problems: Problem[] = [];
  return {
    add(what, sentence, position) {
      if (problems.length < mostProblems)
        problems.push(position === undefined ? { what, sentence } : { position, what, sentence });
    },
    problems: () => problems,
  };
}

/** First bad position first, then what concerns no single entry; at most as many as a verification tells. */
export function inOrder(problems: readonly Problem[]): Problem[] {
  return problems
    .slice(0, mostProblems)
    .toSorted(
      (a, b) => (a.position ?? Number.POSITIVE_INFINITY) - (b.position ?? Number.POSITIVE_INFINITY) || 0,
    );
}
