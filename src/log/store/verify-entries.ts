// Verification of the entries one after the other: bytes, columns, leaves, and the tree that grows from them.
import type { Database } from 'better-sqlite3';
import {
  type Envelope,
  type EnvelopeReading,
  emptyFrontier,
  type Frontier,
  grow,
  leafBytes,
  leafHash,
  type Node,
  readEnvelope,
  rootOfFrontier,
  toHex,
} from '../entry/index.ts';
import { sha256, sha256Hex } from './hash.ts';
import { signatureOf, signatureText } from './rows.ts';
import type { Notebook } from './verification.ts';

type Row = Readonly<{
  position: number;
  id: string;
  device: string;
  seq: number;
  bytes: Uint8Array;
  received_at: string;
  signature: string | null;
  leaf: Uint8Array;
}>;

export type EntryCheck = Readonly<{
  /** Rows seen so far. */
  size(): number;
  /** Looks at the next row. */
  next(row: Row): void;
  /** Hex root over the rows so far. */
  root(): string;
  /** Hex root that the log had at the sizes asked for, once it has come so far. */
  rootsAt: ReadonlyMap<number, string>;
}>;

export function entryRows(database: Database): Iterable<Row> {
  return database
    .prepare<[], Row>(
      'SELECT position, id, device, seq, bytes, received_at, signature, leaf FROM entry ORDER BY position',
    )
    .iterate();
}

/**
 * @param read - reads the bytes of an entry
 * @param sizes - at which the root is wanted
 * @param seen - is given every entry that can be read
 */
export function openEntryCheck(
  database: Database,
  notebook: Notebook,
  read: (bytes: Uint8Array) => EnvelopeReading,
  sizes: ReadonlySet<number>,
  seen: (envelope: Envelope, position: number) => void,
): EntryCheck {
  const storedNode = database
    .prepare<[number, number], Uint8Array>('SELECT hash FROM node WHERE level = ? AND idx = ?')
    .pluck();
  const headSize = database.prepare<[], number>('SELECT size FROM head').pluck();
  const rootsAt = new Map<number, string>();
  let frontier: Frontier = emptyFrontier;
  let lastReceivedAt = '';
  let lastBad = -1;
  let gap = false;
  noteRoot();

  return { size: () => frontier.size, next, root, rootsAt };

  function next(row: Row): void {
    const leaf = leafOf(row);
    checkPosition(row);
    if (row.received_at < lastReceivedAt)
      notebook.add('received-at', 'This entry was received before the one ahead of it.', row.position);
    lastReceivedAt = row.received_at;
    if (Buffer.compare(leaf, row.leaf) === 0) {
      checkContent(row);
    } else {
      lastBad = frontier.size;
      notebook.add(
        'leaf',
        'This entry, its time of receipt or its signature was changed after it was recorded.',
        row.position,
      );
    }
    const step = grow(frontier, leaf, sha256);
    frontier = step.frontier;
    if (!gap) for (const node of step.completed) checkNode(node);
    noteRoot();
  }

  function checkPosition(row: Row): void {
    if (gap || row.position === frontier.size) return;
    gap = true;
    if (row.position < frontier.size) {
      notebook.add('position', 'Positions count from 0; this one was put in from outside.', row.position);
      return;
    }
    const sentence =
      row.position === frontier.size + 1
        ? `Entry ${frontier.size} is missing.`
        : `Entries ${frontier.size} to ${row.position - 1} are missing.`;
    notebook.add('position', sentence, frontier.size);
  }

  /** The leaf fits, so the bytes are those that were put in; whether they are an entry is another question. */
  function checkContent(row: Row): void {
    const reading = read(row.bytes);
    if (!reading.ok) {
      const { field, remedy } = reading.issue;
      notebook.add(
        'bytes',
        `The bytes of this entry are none that this program records (${field}: ${remedy}).`,
        row.position,
      );
      return;
    }
    const { envelope } = reading;
    const same =
      envelope.id === row.id &&
      envelope.device === row.device &&
      envelope.seq === row.seq &&
      signatureText(signatureOf(row.signature)) === row.signature;
    if (!same)
      notebook.add('columns', 'The columns of this entry do not say what its bytes say.', row.position);
    if (envelope.sealed !== undefined || envelope.erases !== undefined) seen(envelope, row.position);
  }

  /** A node above a changed leaf differs too; saying so would only hide what is wrong. */
  function checkNode({ level, index, hash }: Node): void {
    const first = index * 2 ** level;
    if (lastBad >= first) return;
    const stored = storedNode.get(level, index);
    if (stored !== undefined && Buffer.compare(stored, hash) === 0) return;
    // Beyond the head nothing is due; that there are entries is told with the head.
    if (stored === undefined && first + 2 ** level > (headSize.get() ?? 0)) return;
    lastBad = first + 2 ** level - 1;
    notebook.add(
      'node',
      `The stored tree does not fit entries ${first} to ${first + 2 ** level - 1}: one of them, or the tree, was changed.`,
      first,
    );
  }

  function root(): string {
    return toHex(rootOfFrontier(frontier, sha256));
  }

  function noteRoot(): void {
    if (sizes.has(frontier.size)) rootsAt.set(frontier.size, root());
  }
}

/** Reads entries of a newer program, that may have more members than this one knows. */
export function readNewer(bytes: Uint8Array): EnvelopeReading {
  try {
    const value: unknown = readEnvelope(bytes);
    if (typeof value === 'object' && value !== null) return { ok: true, envelope: value as Envelope };
  } catch {
    // Said below.
  }
  return { ok: false, issue: { field: 'entry', value: '', remedy: 'this is no JSON object' } };
}

function leafOf(row: Row): Uint8Array {
  const signature = signatureOf(row.signature);
  return leafHash(
    leafBytes({
      position: row.position,
      receivedAt: row.received_at,
      entryHash: sha256Hex(row.bytes),
      ...(signature ? { signature } : {}),
    }),
    sha256,
  );
}

/** Nodes that belong to no complete subtree of the log as its head counts it, or are too few. */
export function checkNodeCount(database: Database, entries: number, notebook: Notebook): void {
  const size = database.prepare<[], number>('SELECT size FROM head').pluck().get() ?? entries;
  let expected = 0;
  for (let width = 2; width <= size; width *= 2) expected += Math.floor(size / width);
  const found = database.prepare<[], number>('SELECT count(*) FROM node').pluck().get();
  if (found !== expected)
    notebook.add('node', `The stored tree has ${found} nodes; ${size} entries make ${expected}.`);
}
