// The Merkle tree by the recursive text of RFC 9162, slow and plain: what the quick one is measured against.
import { createHash } from 'node:crypto';

export const sha256 = (data: Uint8Array): Uint8Array => createHash('sha256').update(data).digest();

// RFC 9162 section 2.1.1, written as the text has it.
export function slowRoot(leaves: readonly Uint8Array[]): Uint8Array {
  if (leaves.length === 0) return sha256(new Uint8Array());
  if (leaves.length === 1) return sha256(Buffer.concat([Buffer.of(0), leaves[0] ?? new Uint8Array()]));
  const k = largestPowerBelow(leaves.length);
  return sha256(Buffer.concat([Buffer.of(1), slowRoot(leaves.slice(0, k)), slowRoot(leaves.slice(k))]));
}

// RFC 9162 section 2.1.3.1: PATH(m, D[n]).
export function slowPath(m: number, leaves: readonly Uint8Array[]): Uint8Array[] {
  if (leaves.length === 1) return [];
  const k = largestPowerBelow(leaves.length);
  return m < k
    ? [...slowPath(m, leaves.slice(0, k)), slowRoot(leaves.slice(k))]
    : [...slowPath(m - k, leaves.slice(k)), slowRoot(leaves.slice(0, k))];
}

// RFC 9162 section 2.1.4.1: PROOF(m, D[n]) = SUBPROOF(m, D[n], true).
export function slowProof(m: number, leaves: readonly Uint8Array[], whole = true): Uint8Array[] {
  if (m === leaves.length) return whole ? [] : [slowRoot(leaves)];
  const k = largestPowerBelow(leaves.length);
  return m <= k
    ? [...slowProof(m, leaves.slice(0, k), whole), slowRoot(leaves.slice(k))]
    : [...slowProof(m - k, leaves.slice(k), false), slowRoot(leaves.slice(0, k))];
}

function largestPowerBelow(n: number): number {
  let k = 1;
  while (k * 2 < n) k *= 2;
  return k;
}
