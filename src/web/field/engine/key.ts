// The key that this phone signs with: Ed25519 by the browser, made once, and never given out.
import { bytesToSign, type Signature, signatureFrom, toBase64 } from '../../../log/entry/index.ts';
import type { Outside } from './outside.ts';

const algorithm = { name: 'Ed25519' };

/** A new key; undefined where the browser has none to give: without a secure context, or an older one. */
export async function newKey({ subtle }: Outside): Promise<CryptoKeyPair | undefined> {
  try {
    // Not extractable: what is stored is a handle, and no program can read the private half.
    return (await subtle?.generateKey(algorithm, false, ['sign', 'verify'])) as CryptoKeyPair | undefined;
  } catch {
    return undefined;
  }
}

/** The 32 bytes of the public half in base64. */
export async function publicKeyText({ subtle }: Outside, keys: CryptoKeyPair): Promise<string | undefined> {
  const raw = await subtle?.exportKey('raw', keys.publicKey);
  return raw === undefined ? undefined : toBase64(new Uint8Array(raw));
}

/** The signature of an entry's bytes; undefined where this browser does not sign. */
export async function signEntry(
  { subtle }: Outside,
  keys: CryptoKeyPair | undefined,
  entry: Uint8Array,
): Promise<Signature | undefined> {
  if (subtle === undefined || keys === undefined) return undefined;
  const [signature, publicKey] = await Promise.all([
    subtle.sign(algorithm, keys.privateKey, bytesToSign(entry)),
    subtle.exportKey('raw', keys.publicKey),
  ]);
  return signatureFrom(new Uint8Array(publicKey), new Uint8Array(signature));
}
