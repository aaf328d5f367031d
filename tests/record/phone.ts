// An invented phone: it numbers, signs and writes entries as the page on a phone does, by Node's own Ed25519.
import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto';
import { v7 as newUuid } from 'uuid';
import type { EventType, JsonObject } from '../../src/events/index.ts';
import {
  type Envelope,
  type ExchangeLine,
  type SealedRow,
  type Signature,
  writeEntry,
  writeExchangeLine,
} from '../../src/log/entry/index.ts';

export type Phone = Readonly<{
  device: string;
  /** Its public key in base64. */
  publicKey: string;
  keyId: string;
  sign: (bytes: Uint8Array) => Signature;
  /** The next entry, signed. */
  write: (type: EventType, body: JsonObject, more?: Partial<Envelope>) => ExchangeLine;
}>;

export function phone(device: string = newUuid()): Phone {
  const { publicKey, privateKey } = generateKeyPairSync('ed25519');
  const raw = Buffer.from(publicKey.export({ format: 'jwk' }).x ?? '', 'base64url');
  const keyId = createHash('sha256').update(raw).digest('hex').slice(0, 16);
  const signed = (bytes: Uint8Array): Signature => ({
    keyId,
    signature: sign(null, bytes, privateKey).toString('base64'),
  });
  let seq = 0;
  return {
    device,
    publicKey: raw.toString('base64'),
    keyId,
    sign: signed,
    write: (type, body, more = {}) => {
      seq += 1;
      const at = `2026-03-20T09:${String(seq % 60).padStart(2, '0')}:00.000-04:00`;
      const bytes = writeEntry({
        id: newUuid(),
        type,
        v: 1,
        happenedAt: { at, precision: 'instant' },
        recordedAt: at,
        by: newUuid(),
        device,
        seq,
        body,
        ...more,
      });
      return { bytes, signature: signed(bytes) };
    },
  };
}

/** An erasable row under a fresh salt. */
export function rowOf(content: string | Uint8Array, mediaType = 'text/plain'): SealedRow {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const salt = new Uint8Array(randomBytes(16));
  const hash = createHash('sha256').update(salt).update(bytes).digest('hex');
  return { hash, salt, bytes, mediaType };
}

/** A mark on a new stem. */
export function markOf(tag: string): JsonObject {
  return { mark: 'cut', tag, stem: newUuid() };
}

/** A file of lines. */
export function fileOf(lines: readonly ExchangeLine[]): Uint8Array {
  return new TextEncoder().encode(lines.map((line) => `${writeExchangeLine(line)}\n`).join(''));
}
