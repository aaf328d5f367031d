// Signatures of entries: which key, over which bytes, and whether it holds. What computes Ed25519 is handed in, for
// Node, a browser in a secure context and one without have different ways to it.
import { fromBase64, toBase64 } from './base64.ts';
import type { EntryIssue } from './envelope.ts';
import { portableSha256, type Sha256, type Signature, toHex } from './hashing.ts';

/** Bytes of an Ed25519 public key, and of a signature (RFC 8032 section 5.1). */
const keyLength = 32;
const signatureLength = 64;

/** A public key of a device. */
export type DeviceKey = Readonly<{
  /** What `keyIdOf` gives for it. */
  keyId: string;
  /** 32 bytes. */
  publicKey: Uint8Array;
}>;

/** Whether this is the Ed25519 signature of the message by the key; all as raw bytes. */
export type VerifyEd25519 = (check: {
  readonly publicKey: Uint8Array;
  readonly message: Uint8Array;
  readonly signature: Uint8Array;
}) => boolean;

/** Names a key: the first 16 hex digits of the SHA-256 of its 32 bytes. */
export function keyIdOf(publicKey: Uint8Array, sha256: Sha256 = portableSha256): string {
  return toHex(sha256(publicKey)).slice(0, 16);
}

/** A key as it is recorded, in base64; undefined when these are no 32 bytes. */
export function readPublicKey(text: string, sha256: Sha256 = portableSha256): DeviceKey | undefined {
  const publicKey = fromBase64(text);
  if (publicKey?.length !== keyLength) return undefined;
  return { keyId: keyIdOf(publicKey, sha256), publicKey };
}

/**
 * What a device signs: the bytes of the entry as they are, nothing before and nothing after them. A copy, in a buffer
 * of its own, as WebCrypto wants it.
 */
export function bytesToSign(entry: Uint8Array): Uint8Array<ArrayBuffer> {
  return new Uint8Array(entry);
}

/** A signature as it goes beside its entry, from the 64 bytes that Ed25519 gave. */
export function signatureFrom(publicKey: Uint8Array, signature: Uint8Array): Signature {
  return { keyId: keyIdOf(publicKey), signature: toBase64(signature) };
}

/**
 * What is wrong with the signature of an entry whose device has these keys, the newest last; undefined when it holds.
 * A device with a key has to sign: an entry without a signature is wrong too.
 */
export function signatureIssue(
  { bytes, signature }: Readonly<{ bytes: Uint8Array; signature?: Signature | undefined }>,
  keys: readonly DeviceKey[],
  verify: VerifyEd25519,
): EntryIssue | undefined {
  if (signature === undefined)
    return issue('', 'this device has a key and signs its entries; send the entry with its signature');
  const key = keys.find(({ keyId }) => keyId === signature.keyId);
  if (key === undefined)
    return issue(
      signature.keyId,
      'the key with this id is not one that this device was paired with; pair the device again, then send the entry again',
    );
  const raw = fromBase64(signature.signature);
  const holds =
    raw?.length === signatureLength &&
    verify({ publicKey: key.publicKey, message: bytesToSign(bytes), signature: raw });
  if (holds) return undefined;
  return issue(
    signature.signature.slice(0, 100),
    'the signature is not that of these bytes by the key of this device; the entry was changed on its way, or somebody else wrote it',
  );
}

function issue(value: string, remedy: string): EntryIssue {
  return { field: 'signature', value, remedy };
}
