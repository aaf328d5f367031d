// The Merkle tree against RFC 9162 and against a slow reference that follows the RFC's recursive text.
import { describe, expect, it } from 'vitest';
import {
  consistencyProof,
  emptyFrontier,
  emptyRoot,
  type Frontier,
  grow,
  inclusionProof,
  leafHash,
  nodeHash,
  portableSha256,
  rootOf,
  rootOfFrontier,
  toHex,
  verifyConsistency,
  verifyInclusion,
} from '../../src/log/entry/index.ts';
import { sha256, slowPath, slowProof, slowRoot } from './slow-tree.ts';

const utf8 = new TextEncoder();

const largest = 99;
const data = Array.from({ length: largest }, (_, index) => utf8.encode(`leaf ${index}`));
const hashes = data.map((leaf) => leafHash(leaf));
const roots = Array.from({ length: largest + 1 }, (_, size) => slowRoot(data.slice(0, size)));
const frontiers: Frontier[] = [emptyFrontier];
const nodes = new Map<string, Uint8Array>(hashes.map((hash, index) => [`0/${index}`, hash]));
for (const hash of hashes) {
  const step = grow(frontiers.at(-1) ?? emptyFrontier, hash);
  frontiers.push(step.frontier);
  for (const done of step.completed) nodes.set(`${done.level}/${done.index}`, done.hash);
}

function node(level: number, index: number): Uint8Array {
  const hash = nodes.get(`${level}/${index}`);
  if (hash === undefined) throw new Error(`Node ${level}/${index} is not complete.`);
  return hash;
}

function flipped(bytes: Uint8Array, bit: number): Uint8Array {
  const copy = Uint8Array.from(bytes);
  copy[bit >> 3] = (copy[bit >> 3] ?? 0) ^ (1 << (bit & 7));
  return copy;
}

/** The proof with one bit of one hash flipped, for each hash; which bit depends on where it is. */
function damaged(proof: readonly Uint8Array[], salt: number): Uint8Array[][] {
  return proof.map((hash, at) =>
    proof.map((other, i) => (i === at ? flipped(hash, (salt + at * 37) % 256) : other)),
  );
}

describe('hashes of RFC 6962 and RFC 9162', () => {
  // Fixed values that implementations of RFC 6962 publish with their tests (transparency-dev/merkle,
  // rfc6962_test.go): empty tree, empty leaf, leaf "L123456".
  it('gives the empty tree, the empty leaf and a leaf their published hashes', () => {
    expect(toHex(emptyRoot())).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
    expect(toHex(leafHash(new Uint8Array()))).toBe(
      '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
    );
    expect(toHex(leafHash(utf8.encode('L123456')))).toBe(
      '395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56',
    );
  });

  // The tree of eight leaves that Certificate Transparency implementations share as test data; written down
  // from memory, and confirmed by agreeing.
  it('gives the eight-leaf tree of Certificate Transparency its published roots', () => {
    const leaves = [
      '',
      '00',
      '10',
      '2021',
      '3031',
      '40414243',
      '5051525354555657',
      '606162636465666768696a6b6c6d6e6f',
    ];
    const published = [
      '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
      'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
      'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
      'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
      '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
      '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
      'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
      '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
    ];
    const eight = leaves.map((leaf) => leafHash(Buffer.from(leaf, 'hex')));
    published.forEach((root, index) => {
      expect(toHex(rootOf(eight.slice(0, index + 1)))).toBe(root);
    });
  });

  it('prefixes leaves with 0x00 and nodes with 0x01 (RFC 9162 section 2.1.1)', () => {
    const [left, right] = [sha256(utf8.encode('left')), sha256(utf8.encode('right'))];
    expect(toHex(nodeHash(left, right))).toBe(toHex(sha256(Buffer.concat([Buffer.of(1), left, right]))));
    expect(toHex(leafHash(left))).toBe(toHex(sha256(Buffer.concat([Buffer.of(0), left]))));
  });

  it('has the same SHA-256 in the browser as OpenSSL', () => {
    for (const length of [0, 1, 55, 56, 63, 64, 65, 1000]) {
      const text = new Uint8Array(length).fill(0x61);
      expect(toHex(portableSha256(text))).toBe(toHex(sha256(text)));
    }
  });
});

describe('trees of 0 to 99 leaves', () => {
  it('have the root that the recursive text gives, whole and grown', () => {
    for (let size = 0; size <= largest; size += 1) {
      expect(toHex(rootOf(hashes.slice(0, size)))).toBe(toHex(roots[size] ?? new Uint8Array()));
      expect(toHex(rootOfFrontier(frontiers[size] ?? emptyFrontier))).toBe(
        toHex(roots[size] ?? new Uint8Array()),
      );
    }
  });

  it('prove every leaf by the path of the recursive text, and by no other', () => {
    let refused = 0;
    for (let size = 1; size <= largest; size += 1) {
      const root = roots[size] ?? new Uint8Array();
      for (let position = 0; position < size; position += 1) {
        const leaf = hashes[position] ?? new Uint8Array();
        const proof = inclusionProof(position, size, node);
        expect(proof.map(toHex)).toEqual(slowPath(position, data.slice(0, size)).map(toHex));
        expect(verifyInclusion(leaf, position, size, proof, root)).toBe(true);
        for (const wrong of damaged(proof, size + position)) {
          refused += 1;
          if (verifyInclusion(leaf, position, size, wrong, root)) expect.fail(`${position} of ${size}`);
        }
        const others = [
          verifyInclusion(flipped(leaf, size), position, size, proof, root),
          verifyInclusion(leaf, position, size, proof, flipped(root, position)),
          verifyInclusion(leaf, position, size, [...proof, leaf], root),
          size > 1 && verifyInclusion(leaf, position, size, proof.slice(1), root),
          size > 1 && verifyInclusion(leaf, position ^ 1, size, proof, root),
          verifyInclusion(leaf, size, size, proof, root),
          verifyInclusion(leaf, -1, size, proof, root),
        ];
        expect(others).not.toContain(true);
      }
    }
    expect(refused).toBeGreaterThan(25_000);
  });

  it('prove every prefix by the proof of the recursive text, and by no other', () => {
    let refused = 0;
    for (let to = 1; to <= largest; to += 1) {
      for (let from = 1; from <= to; from += 1) {
        const [older, newer] = [roots[from] ?? new Uint8Array(), roots[to] ?? new Uint8Array()];
        const proof = consistencyProof(from, to, node);
        expect(proof.map(toHex)).toEqual(slowProof(from, data.slice(0, to)).map(toHex));
        expect(verifyConsistency(from, to, older, newer, proof)).toBe(true);
        for (const wrong of damaged(proof, from + to)) {
          refused += 1;
          if (verifyConsistency(from, to, older, newer, wrong)) expect.fail(`${from} of ${to}`);
        }
        const others = [
          verifyConsistency(from, to, flipped(older, to), newer, proof),
          verifyConsistency(from, to, older, flipped(newer, from), proof),
          verifyConsistency(from, to, older, newer, [...proof, older]),
          from < to && verifyConsistency(from, to, older, newer, proof.slice(1)),
          from < to && verifyConsistency(from, to, older, newer, []),
          from < to && verifyConsistency(from, to, newer, older, proof),
        ];
        expect(others).not.toContain(true);
      }
    }
    expect(refused).toBeGreaterThan(25_000);
  });

  it('refuse to prove what is not there', () => {
    expect(() => inclusionProof(5, 5, node)).toThrow(RangeError);
    expect(() => inclusionProof(-1, 5, node)).toThrow(RangeError);
    expect(() => inclusionProof(0.5, 5, node)).toThrow(RangeError);
    expect(() => consistencyProof(0, 5, node)).toThrow(RangeError);
    expect(() => consistencyProof(6, 5, node)).toThrow(RangeError);
  });
});
