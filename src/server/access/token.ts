// The token that a paired device shows with every request. Only its hash is kept: whoever reads the file of paired
// devices cannot ask as one of them. The token is random in full, so a plain hash is enough (no password).
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** A new token: 256 random bits, in base64url (RFC 4648 section 5). */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

/** SHA-256 of a token, in hex. */
export function hashOfToken(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}

/** Whether two hashes are the same; how long that takes tells nothing about where they differ. */
export function sameHash(one: string, other: string): boolean {
  const [a, b] = [Buffer.from(one), Buffer.from(other)];
  return a.length === b.length && timingSafeEqual(a, b);
}
