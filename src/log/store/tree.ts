// The Merkle tree as the logbook stores it: leaf hashes with the entries, complete subtrees above them, the head.
import type { Database } from 'better-sqlite3';
import {
  consistencyProof,
  type Frontier,
  grow,
  inclusionProof,
  type Node,
  type NodeReader,
  rootOfFrontier,
  subtreesOf,
  type TreeHead,
  toHex,
} from '../entry/index.ts';
import { sha256 } from './hash.ts';

export type StoredTree = Readonly<{
  head(): TreeHead;
  rootAt(size: number): string;
  inclusionProof(position: number, size: number): Uint8Array[];
  consistencyProof(from: number, to: number): Uint8Array[];
  /** Inside a writing transaction: the right edge of the tree, where growing starts. */
  edge(): Frontier;
  /** Inside a writing transaction: stores what growing completed, and moves the head. */
  store(completed: readonly Node[], edge: Frontier): void;
}>;

export function storedTree(database: Database): StoredTree {
  const selectHead = database.prepare<[], TreeHead>('SELECT size, root FROM head');
  const updateHead = database.prepare<[number, string]>('UPDATE head SET size = ?, root = ?');
  const selectLeaf = database.prepare<[number], Buffer>('SELECT leaf FROM entry WHERE position = ?').pluck();
  const selectNode = database
    .prepare<[number, number], Buffer>('SELECT hash FROM node WHERE level = ? AND idx = ?')
    .pluck();
  const insertNode = database.prepare<[number, number, Uint8Array]>('INSERT INTO node VALUES (?, ?, ?)');
  /** The edge that this connection stored last; another process may have moved on since. */
  let last: { edge: Frontier; root: string } | undefined;

  const head = (): TreeHead => {
    const row = selectHead.get();
    if (row === undefined) throw new RangeError('The logbook has lost its tree head. Verify it.');
    return row;
  };
  const node: NodeReader = (level, index) => {
    const hash = level === 0 ? selectLeaf.get(index) : selectNode.get(level, index);
    if (hash === undefined)
      throw new RangeError(`The logbook has lost the hash ${index} of level ${level} of its tree. Verify it.`);
    return hash;
  };
  const edgeAt = (size: number): Frontier => ({
    size,
    roots: size === 0 ? [] : subtreesOf(size).map(({ level, index }) => node(level, index)),
  });
  const mustHave = (size: number): void => {
    const now = head().size;
    if (!Number.isInteger(size) || size < 0 || size > now)
      throw new RangeError(`The logbook never held ${size} entries; it holds ${now}.`);
  };

  return {
    head,
    rootAt: (size) => {
      mustHave(size);
      return toHex(rootOfFrontier(edgeAt(size), sha256));
    },
    inclusionProof: (position, size) => {
      mustHave(size);
      return inclusionProof(position, size, node, sha256);
    },
    consistencyProof: (from, to) => {
      mustHave(to);
      return consistencyProof(from, to, node, sha256);
    },
    edge: () => {
      const { size, root } = head();
      return last?.edge.size === size && last.root === root ? last.edge : edgeAt(size);
    },
    store: (completed, edge) => {
      for (const { level, index, hash } of completed) insertNode.run(level, index, hash);
      const root = toHex(rootOfFrontier(edge, sha256));
      updateHead.run(edge.size, root);
      last = { edge, root };
    },
  };
}

/** Grows an edge by leaves, gathering the subtrees that become complete. */
export function growing(start: Frontier): { add(leaf: Uint8Array): void; edge(): Frontier; completed: Node[] } {
  let edge = start;
  const completed: Node[] = [];
  return {
    add: (leaf) => {
      const grown = grow(edge, leaf, sha256);
      edge = grown.frontier;
      completed.push(...grown.completed);
    },
    edge: () => edge,
    completed,
  };
}
