// How rows of the tables become what the port promises.
import type { Signature } from '../entry/index.ts';
import type { SealedRow, Stored } from './port.ts';

export type EntryRow = Readonly<{
  position: number;
  id: string;
  bytes: Uint8Array;
  received_at: string;
  signature: string | null;
}>;
export const entryColumns = 'position, id, bytes, received_at, signature';

export type SealedColumns = Readonly<{
  hash: string;
  salt: Uint8Array;
  bytes: Uint8Array;
  media_type: string;
}>;

export function storedOf(row: EntryRow): Stored {
  const signature = signatureOf(row.signature);
  return {
    position: row.position,
    receivedAt: row.received_at,
    bytes: row.bytes,
    id: row.id,
    ...(signature ? { signature } : {}),
  };
}

export function sealedOf(row: SealedColumns): SealedRow {
  return { hash: row.hash, salt: row.salt, bytes: row.bytes, mediaType: row.media_type };
}

/** A signature as it stands beside its entry: key id, space, signature; neither has spaces in it. */
export function signatureText(signature: Signature | undefined): string | null {
  return signature === undefined ? null : `${signature.keyId} ${signature.signature}`;
}

export function signatureOf(text: string | null): Signature | undefined {
  if (text === null) return undefined;
  const [keyId = '', signature = ''] = text.split(' ');
  return { keyId, signature };
}
