// The tree as it is kept in the file: leaves with the entries, complete subtrees as nodes, the head as a row.
import {
  emptyFrontier,
  type Frontier,
  grow,
  type Node,
  type NodeReader,
  rootOfFrontier,
  subtreesOf,
  type TreeHead,
  toHex,
} from '../entry/index.ts';
import type { OpenFile } from './database.ts';
import { damaged } from './error.ts';
import { sha256 } from './hash.ts';

/** The right edge of the tree, with what the next entry needs to know. */
export type Edge = Readonly<{ head: TreeHead; frontier: Frontier; lastReceivedAt: string }>;

export type Tree = Readonly<{
  head(): TreeHead;
  node: NodeReader;
  /** The edge of the tree as it is in the file; remembered as long as nobody else writes. */
  edge(): Edge;
  /** Root over the first `size` entries. */
  rootAt(size: number): string;
  /** Adds a leaf to the frontier and stores the nodes that it completes. */
  grown(frontier: Frontier, leaf: Uint8Array): Frontier;
  /** Moves the head; to be called within the transaction of the entries. */
  move(frontier: Frontier, lastReceivedAt: string): Edge;
  /** To be called when the transaction that moved the head has ended well. */
  remember(edge: Edge): void;
}>;

export function openTree({ database, path }: OpenFile): Tree {
  const headRow = database.prepare<[], TreeHead>('SELECT size, root FROM head');
  const leaf = database.prepare<[number], { hash: Uint8Array }>(
    'SELECT leaf AS hash FROM entry WHERE position = ?',
  );
  const inner = database.prepare<[number, number], { hash: Uint8Array }>(
    'SELECT hash FROM node WHERE level = ? AND idx = ?',
  );
  const received = database.prepare<[number], { time: string }>(
    'SELECT received_at AS time FROM entry WHERE position = ?',
  );
  const keepNode = database.prepare<[number, number, Uint8Array]>(
    'INSERT INTO node (level, idx, hash) VALUES (?, ?, ?)',
  );
  const moveHead = database.prepare<[number, string]>('UPDATE head SET size = ?, root = ?');
  let known: Edge | undefined;

  const head = (): TreeHead => {
    const row = headRow.get();
    if (row === undefined) throw damaged(path, 'the head of the tree is gone');
    return row;
  };
  const node: NodeReader = (level, index) => {
    const row = level === 0 ? leaf.get(index) : inner.get(level, index);
    if (row === undefined) throw damaged(path, `the stored tree lacks node ${index} of level ${level}`);
    return row.hash;
  };
  const frontierAt = (size: number): Frontier =>
    size === 0
      ? emptyFrontier
      : { size, roots: subtreesOf(size).map(({ level, index }) => node(level, index)) };

  return {
    head,
    node,
    edge() {
      const now = head();
      if (known?.head.size === now.size && known.head.root === now.root) return known;
      const lastReceivedAt = now.size === 0 ? '' : (received.get(now.size - 1)?.time ?? '');
      const frontier = frontierAt(now.size);
      if (toHex(rootOfFrontier(frontier, sha256)) !== now.root)
        throw damaged(path, 'the head of the tree does not follow from the stored tree');
      known = { head: now, frontier, lastReceivedAt };
      return known;
    },
    rootAt(size) {
      if (!Number.isSafeInteger(size) || size < 0 || size > head().size)
        throw new RangeError(`The log never held ${size} entries; it holds ${head().size}.`);
      return toHex(rootOfFrontier(frontierAt(size), sha256));
    },
    grown(frontier, hash) {
      const step = grow(frontier, hash, sha256);
      for (const done of step.completed) keepNodeOf(done);
      return step.frontier;
    },
    move(frontier, lastReceivedAt) {
      const moved = { size: frontier.size, root: toHex(rootOfFrontier(frontier, sha256)) };
      moveHead.run(moved.size, moved.root);
      return { head: moved, frontier, lastReceivedAt };
    },
    remember(edge) {
      known = edge;
    },
  };

  function keepNodeOf({ level, index, hash }: Node): void {
    keepNode.run(level, index, hash);
  }
}
