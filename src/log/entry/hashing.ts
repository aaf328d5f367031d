// SHA-256 of entries, leaves, nodes and sealed rows. Callers may pass a faster SHA-256 than the portable one.
import { sha256 as portable } from '@noble/hashes/sha2.js';

export type Sha256 = (data: Uint8Array) => Uint8Array;
/** Works in browsers too, without a secure context. */
export const portableSha256: Sha256 = portable;

const encoder = new TextEncoder();

/** An Ed25519 signature of an entry's bytes: the key by the first bytes of its hash, the signature in base64. */
export type Signature = Readonly<{ keyId: string; signature: string }>;

export type Leaf = Readonly<{
  /** 0, 1, 2 … in the logbook. */
  position: number;
  /** RFC 3339 in UTC with milliseconds. */
  receivedAt: string;
  /** Hex SHA-256 of the entry's bytes. */
  entryHash: string;
  signature?: Signature | undefined;
}>;

/**
 * The text of a leaf, version 1: five lines that printf and sha256sum can make again.
 *
 *     gapledger leaf 1
 *     <position>
 *     <receivedAt>
 *     <hex SHA-256 of the entry>
 *     -   or   ed25519 <key id> <base64 signature>
 */
function leafText({ position, receivedAt, entryHash, signature }: Leaf): string {
  const signed = signature === undefined ? '-' : `ed25519 ${signature.keyId} ${signature.signature}`;
  return `gapledger leaf 1\n${position}\n${receivedAt}\n${entryHash}\n${signed}\n`;
}

/** The bytes of a leaf: its text in UTF-8. */
export function leafBytes(leaf: Leaf): Uint8Array {
  return encoder.encode(leafText(leaf));
}

/** Hash of a leaf: SHA-256(0x00 ‖ leaf), RFC 9162 section 2.1.1. */
export function leafHash(leaf: Uint8Array, sha256: Sha256 = portableSha256): Uint8Array {
  const data = new Uint8Array(1 + leaf.length);
  data.set(leaf, 1);
  return sha256(data);
}

/** What leafHash hashes, as text for a SHA-256 that takes text as UTF-8: U+0000 and the text of the leaf. */
export function leafInput(leaf: Leaf): string {
  return `\0${leafText(leaf)}`;
}

/** 0x01 and two hashes: filled anew for every node, because making it anew takes longer than hashing it. */
const nodeInput = Uint8Array.of(1, ...new Uint8Array(64));

/** Hash of an inner node: SHA-256(0x01 ‖ left ‖ right), RFC 9162 section 2.1.1. */
export function nodeHash(left: Uint8Array, right: Uint8Array, sha256: Sha256 = portableSha256): Uint8Array {
  nodeInput.fill(0, 1);
  nodeInput.set(left, 1);
  nodeInput.set(right, 33);
  return sha256(nodeInput);
}

/** Root of the empty tree: SHA-256 of nothing. */
export function emptyRoot(sha256: Sha256 = portableSha256): Uint8Array {
  return sha256(new Uint8Array(0));
}

/** Hex hash of an erasable row: SHA-256(salt ‖ bytes). Salts are 16 random bytes. */
export function seal(bytes: Uint8Array, salt: Uint8Array, sha256: Sha256 = portableSha256): string {
  const data = new Uint8Array(salt.length + bytes.length);
  data.set(salt);
  data.set(bytes, salt.length);
  return toHex(sha256(data));
}

export function toHex(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += hexOf[byte];
  return text;
}

const hexOf = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'));

/** Bytes of a hex text; undefined when it is none. */
export function fromHex(text: string): Uint8Array | undefined {
  if (text.length % 2 !== 0 || !/^[0-9a-f]*$/i.test(text)) return undefined;
  return Uint8Array.from({ length: text.length / 2 }, (_, index) =>
    Number.parseInt(text.slice(2 * index, 2 * index + 2), 16),
  );
}
