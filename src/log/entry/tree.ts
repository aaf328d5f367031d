// The Merkle tree over the leaves, as in RFC 9162 section 2.1, grown at its right edge.
// Complete subtrees never change: node (level, index) covers leaves index·2^level … (index+1)·2^level − 1.
import { emptyRoot, nodeHash, portableSha256, type Sha256 } from './hashing.ts';

export type Node = Readonly<{ level: number; index: number; hash: Uint8Array }>;

/** The right edge of a growing tree: the roots of its complete subtrees, largest first. */
export type Frontier = Readonly<{ size: number; roots: readonly Uint8Array[] }>;

export const emptyFrontier: Frontier = { size: 0, roots: [] };

/** Adds one leaf hash. Gives the new frontier and the inner nodes that became complete by it. */
export function grow(
  frontier: Frontier,
  leaf: Uint8Array,
  sha256: Sha256 = portableSha256,
): { frontier: Frontier; completed: readonly Node[] } {
  const roots = [...frontier.roots];
  const completed: Node[] = [];
  let hash = leaf;
  let level = 0;
  for (let index = frontier.size; index % 2 === 1; index = (index - 1) / 2) {
    hash = nodeHash(roots.pop() ?? hash, hash, sha256);
    level += 1;
    completed.push({ level, index: (index - 1) / 2, hash });
  }
  roots.push(hash);
  return { frontier: { size: frontier.size + 1, roots }, completed };
}

/** Root of the tree with this frontier. */
export function rootOfFrontier(frontier: Frontier, sha256: Sha256 = portableSha256): Uint8Array {
  let root: Uint8Array | undefined;
  for (let index = frontier.roots.length - 1; index >= 0; index -= 1) {
    const left = frontier.roots[index];
    if (left) root = root === undefined ? left : nodeHash(left, root, sha256);
  }
  return root ?? emptyRoot(sha256);
}

/** Root over all leaf hashes. */
export function rootOf(leaves: Iterable<Uint8Array>, sha256: Sha256 = portableSha256): Uint8Array {
  let frontier = emptyFrontier;
  for (const leaf of leaves) frontier = grow(frontier, leaf, sha256).frontier;
  return rootOfFrontier(frontier, sha256);
}

/** The complete subtrees that make up a tree of this size, largest first, as (level, index). */
export function subtreesOf(size: number): { level: number; index: number }[] {
  const parts: { level: number; index: number }[] = [];
  let start = 0;
  for (let level = Math.floor(Math.log2(Math.max(1, size))) + 1; level >= 0; level -= 1) {
    const width = 2 ** level;
    if (size - start < width) continue;
    parts.push({ level, index: start / width });
    start += width;
  }
  return parts;
}
