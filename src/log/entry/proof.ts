// Inclusion and consistency proofs, RFC 9162 sections 2.1.3 and 2.1.4. Proofs are built from the stored
// complete subtrees; hashes are asked for one at a time, so a store need not load the tree.
import { nodeHash, portableSha256, type Sha256 } from './hashing.ts';
import { subtreesOf } from './tree.ts';

/** Gives the hash of a complete subtree; level 0 are the leaf hashes. */
export type NodeReader = (level: number, index: number) => Uint8Array;

/** Hash of the range [start, end) of leaves; `start` is a multiple of the largest power of two below the width. */
function rangeHash(start: number, end: number, node: NodeReader, sha256: Sha256): Uint8Array {
  const parts = subtreesOf(end - start).map(({ level, index }) => node(level, start / 2 ** level + index));
  const last = parts.pop();
  if (last === undefined) throw new RangeError(`No leaves from ${start} to ${end}.`);
  return parts.reduceRight((right, left) => nodeHash(left, right, sha256), last);
}

/** The largest power of two below `size`. */
function split(size: number): number {
  let width = 1;
  while (width * 2 < size) width *= 2;
  return width;
}

/**
 * Path from the leaf at `position` to the root of the first `size` leaves.
 * @throws RangeError when there is no such leaf
 */
export function inclusionProof(
  position: number,
  size: number,
  node: NodeReader,
  sha256: Sha256 = portableSha256,
): Uint8Array[] {
  if (!Number.isInteger(position) || position < 0 || position >= size)
    throw new RangeError(`There is no entry ${position} among ${size}.`);
  const path: Uint8Array[] = [];
  let [start, end] = [0, size];
  while (end - start > 1) {
    const middle = start + split(end - start);
    if (position < middle) {
      path.push(rangeHash(middle, end, node, sha256));
      end = middle;
    } else {
      path.push(rangeHash(start, middle, node, sha256));
      start = middle;
    }
  }
  return path.reverse();
}

/** Whether the proof leads from the leaf to the root (RFC 9162 section 2.1.3.2). */
export function verifyInclusion(
  leaf: Uint8Array,
  position: number,
  size: number,
  proof: readonly Uint8Array[],
  root: Uint8Array,
  sha256: Sha256 = portableSha256,
): boolean {
  if (position < 0 || position >= size) return false;
  let [fn, sn] = [position, size - 1];
  let hash = leaf;
  for (const part of proof) {
    if (sn === 0) return false;
    if (fn % 2 === 1 || fn === sn) {
      hash = nodeHash(part, hash, sha256);
      while (fn % 2 === 0 && fn !== 0) [fn, sn] = [half(fn), half(sn)];
    } else {
      hash = nodeHash(hash, part, sha256);
    }
    [fn, sn] = [half(fn), half(sn)];
  }
  return sn === 0 && same(hash, root);
}

/**
 * Proof that the first `from` leaves of a tree of `to` leaves are the tree that had `from` leaves.
 * @throws RangeError when from is not between 1 and to
 */
export function consistencyProof(
  from: number,
  to: number,
  node: NodeReader,
  sha256: Sha256 = portableSha256,
): Uint8Array[] {
  if (from < 1 || from > to) throw new RangeError(`There is no proof from ${from} to ${to} entries.`);
  const proof: Uint8Array[] = [];
  let [start, end] = [0, to];
  let whole = true;
  while (from !== end) {
    const middle = start + split(end - start);
    if (from <= middle) {
      proof.push(rangeHash(middle, end, node, sha256));
      end = middle;
    } else {
      proof.push(rangeHash(start, middle, node, sha256));
      start = middle;
      whole = false;
    }
  }
  if (!whole) proof.push(rangeHash(start, end, node, sha256));
  return proof.reverse();
}

/** Whether the proof shows that `newRoot` grew from `oldRoot` (RFC 9162 section 2.1.4.2). */
export function verifyConsistency(
  from: number,
  to: number,
  oldRoot: Uint8Array,
  newRoot: Uint8Array,
  proof: readonly Uint8Array[],
  sha256: Sha256 = portableSha256,
): boolean {
  if (from < 1 || from > to) return false;
  if (from === to) return proof.length === 0 && same(oldRoot, newRoot);
  const path = Number.isInteger(Math.log2(from)) ? [oldRoot, ...proof] : [...proof];
  const first = path.shift();
  if (first === undefined) return false;
  let [fn, sn] = [from - 1, to - 1];
  while (fn % 2 === 1) [fn, sn] = [half(fn), half(sn)];
  let [older, newer] = [first, first];
  for (const part of path) {
    if (sn === 0) return false;
    if (fn % 2 === 1 || fn === sn) {
      older = nodeHash(part, older, sha256);
      newer = nodeHash(part, newer, sha256);
      while (fn % 2 === 0 && fn !== 0) [fn, sn] = [half(fn), half(sn)];
    } else {
      newer = nodeHash(newer, part, sha256);
    }
    [fn, sn] = [half(fn), half(sn)];
  }
  return sn === 0 && same(older, oldRoot) && same(newer, newRoot);
}

function half(number: number): number {
  return Math.floor(number / 2);
}

function same(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, index) => byte === b[index]);
}
