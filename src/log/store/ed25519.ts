// Ed25519 by Node.
import { createPublicKey, type KeyObject, verify } from 'node:crypto';
import type { VerifyEd25519 } from '../entry/index.ts';

/** Keys that were read, by their bytes: reading one takes as long as checking a signature. */
const keys = new WeakMap<Uint8Array, KeyObject>();

/**
 * Whether a signature holds (RFC 8032 section 5.1.7).
 * @throws Error when the public key has not 32 bytes
 */
export const verifyEd25519: VerifyEd25519 = ({ publicKey, message, signature }) =>
  verify(null, message, keyObject(publicKey), signature);

/** A raw key as RFC 8037 section 2 writes it in JSON. */
function keyObject(publicKey: Uint8Array): KeyObject {
  const known = keys.get(publicKey);
  if (known !== undefined) return known;
  const made = createPublicKey({
    key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(publicKey).toString('base64url') },
    format: 'jwk',
  });
  keys.set(publicKey, made);
  return made;
}
