// Verification of the entries one after the other: bytes, columns, leaves, and the tree that grows from them.
import type { Database } from 'better-sqlite3';
import {
  type Envelope,
  emptyFrontier,
  type Frontier,
  grow,
  leafInput,
  type Node,
  rootOfFrontier,
  toHex,
} from '../entry/index.ts';
import { sha256, sha256Hex } from './hash.ts';
import { signatureOf, signatureText } from './rows.ts';
import { readNodesAlong } from './stored-nodes.ts';
import type { Notebook } from './verification.ts';

/** SQLite's answer as a list, with bytes as text: objects and buffers take twice as long to read. */
type Columns = readonly [
  position: number,
  id: string,
  device: string,
  seq: number,
  text: string,
  receivedAt: string,
  signature: string | null,
  leaf: string,
];

function rowOf([position, id, device, seq, text, receivedAt, signature, leaf]: Columns) {
  return { position, id, device, seq, text, receivedAt, signature, leaf } as const;
}
type Row = ReturnType<typeof rowOf>;

export type EntryCheck = Readonly<{
  /** Rows seen so far. */
  size(): number;
  /** Looks at the next row. */
  next(columns: Columns): void;
  /** Hex root over the rows so far. */
  root(): string;
  /** Hex root that the log had at the sizes asked for, once it has come so far. */
  rootsAt: ReadonlyMap<number, string>;
}>;

export function entryRows(database: Database): Iterable<Columns> {
  return database
    .prepare<[], Columns>(
      `SELECT position, id, device, seq, CAST(bytes AS TEXT), received_at, signature, lower(hex(leaf))
       FROM entry ORDER BY position`,
    )
    .raw()
    .iterate();
}

/**
 * @param sizes - at which the root is wanted
 * @param seen - is given every entry that can be read
 */
export function openEntryCheck(
  database: Database,
  notebook: Notebook,
  sizes: ReadonlySet<number>,
  seen: (envelope: Envelope, position: number) => void,
): EntryCheck {
  const storedNodes = readNodesAlong(database);
  const bytesAt = database
    .prepare<[number], Uint8Array>('SELECT bytes FROM entry WHERE position = ?')
    .pluck();
  const headSize = database.prepare<[], number>('SELECT size FROM head').pluck();
  const rootsAt = new Map<number, string>();
  let frontier: Frontier = emptyFrontier;
  let lastReceivedAt = '';
  let lastBad = -1;
  let gap = false;
  noteRoot();

  return { size: () => frontier.size, next, root, rootsAt };

  function next(columns: Columns): void {
    const row = rowOf(columns);
    const leaf = leafOf(row, entryHash(row));
    checkPosition(row);
    if (row.receivedAt < lastReceivedAt)
      notebook.add('received-at', 'This entry was received before the one ahead of it.', row.position);
    lastReceivedAt = row.receivedAt;
    if (leaf === row.leaf) {
      checkContent(row);
    } else {
      lastBad = frontier.size;
      notebook.add(
        'leaf',
        'This entry, its time of receipt or its signature was changed after it was recorded.',
        row.position,
      );
    }
    const step = grow(frontier, Buffer.from(leaf, 'hex'), sha256);
    frontier = step.frontier;
    if (!gap) for (const node of step.completed) checkNode(node);
    noteRoot();
  }

  /** Bytes that are no UTF-8 all read as U+FFFD: where that occurs, the bytes themselves are hashed. */
  function entryHash({ position, text }: Row): string {
    return sha256Hex(text.includes('\uFFFD') ? (bytesAt.get(position) ?? text) : text);
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
    const envelope = readEntry(row.text);
    if (envelope === undefined) {
      notebook.add('bytes', 'The bytes of this entry are none that this program records.', row.position);
      return;
    }
    const same =
      envelope.id === row.id &&
      envelope.device === row.device &&
      envelope.seq === row.seq &&
      signatureText(signatureOf(row.signature)) === row.signature;
    if (!same)
      notebook.add('columns', 'The columns of this entry do not say what its bytes say.', row.position);
    seen(envelope, row.position);
  }

  /** A node above a changed leaf differs too; saying so would only hide what is wrong. */
  function checkNode({ level, index, hash }: Node): void {
    const first = index * 2 ** level;
    if (lastBad >= first) return;
    const stored = storedNodes.hashAt(level, index);
    if (stored !== undefined && Buffer.compare(Buffer.from(stored, 'hex'), hash) === 0) return;
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

/**
 * The bytes fit their leaf, so they are those that were checked when they were recorded; what is asked here is
 * only whether they are an entry at all. A newer program's entries may have members that this one does not know.
 */
function readEntry(text: string): Envelope | undefined {
  try {
    const entry: unknown = JSON.parse(text);
    return isEntry(entry) ? entry : undefined;
  } catch {
    return undefined;
  }
}

function isEntry(value: unknown): value is Envelope {
  if (typeof value !== 'object' || value === null) return false;
  const { type, happenedAt, recordedAt, by, body } = value as Partial<Record<string, unknown>>;
  return (
    typeof type === 'string' &&
    typeof happenedAt === 'object' &&
    typeof recordedAt === 'string' &&
    typeof by === 'string' &&
    typeof body === 'object'
  );
}

/** The hash of the leaf in hex. */
function leafOf({ position, receivedAt, signature }: Row, entryHash: string): string {
  return sha256Hex(leafInput({ position, receivedAt, entryHash, signature: signatureOf(signature) }));
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
