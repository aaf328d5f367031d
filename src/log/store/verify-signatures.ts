// Verification of the signatures: each by a key that the log has for the device of the entry. Which entries give
// keys is for others to say; here they come as envelopes like all others.
import { setImmediate } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import { type DeviceKey, type Envelope, signatureIssue } from '../entry/index.ts';
import { verifyEd25519 } from './ed25519.ts';
import { signatureOf } from './rows.ts';
import type { KeysFrom, Notebook, SignatureNotes } from './verification.ts';

/** Others get their turn after so many signatures. */
const stride = 500;

export type SignatureCheck = Readonly<{
  /** To be told of every entry. */
  note(envelope: Envelope, position: number): void;
  /** Checks all signatures that there are, and looks for those that there ought to be. */
  finish(database: Database, notebook: Notebook): Promise<SignatureNotes>;
}>;

type Row = Readonly<{ position: number; device: string; bytes: Uint8Array; signature: string | null }>;

/** Without `keysFrom` nothing is checked and signatures are only counted. */
export function openSignatureCheck(keysFrom: KeysFrom | undefined): SignatureCheck {
  const keys = new Map<string, DeviceKey[]>();
  /** Position of the entry that gave a device its first key. */
  const since = new Map<string, number>();

  return {
    note(envelope, position) {
      const given = keysFrom?.(envelope);
      if (given === undefined) return;
      keys.set(given.device, [...(keys.get(given.device) ?? []), given.key]);
      if (!since.has(given.device)) since.set(given.device, position);
    },
    async finish(database, notebook) {
      let [signed, keyUnknown, seen] = [0, 0, 0];
      for (const row of rowsToCheck(database)) {
        seen += 1;
        if (seen % stride === 0) await setImmediate();
        if (row.signature !== null) signed += 1;
        if (keys.has(row.device)) check(row, notebook);
        else keyUnknown += 1;
      }
      const entries = database.prepare<[], number>('SELECT count(*) FROM entry').pluck().get() ?? 0;
      return { signed, unsigned: entries - signed, keyUnknown };
    },
  };

  /** Signed entries, and all of devices that ought to sign. */
  function rowsToCheck(database: Database): Iterable<Row> {
    return database
      .prepare<[string], Row>(
        `SELECT position, device, bytes, signature FROM entry
         WHERE signature IS NOT NULL OR device IN (SELECT value FROM json_each(?)) ORDER BY position`,
      )
      .iterate(JSON.stringify([...keys.keys()]));
  }

  function check({ position, device, bytes, signature: text }: Row, notebook: Notebook): void {
    const signature = signatureOf(text);
    // Before it had a key it could not sign.
    if (signature === undefined && position <= (since.get(device) ?? position)) return;
    const known = keys.get(device) ?? [];
    if (signatureIssue({ bytes, signature }, known, verifyEd25519) === undefined) return;
    notebook.add('signature', sentenceOf(signature, known), position);
  }
}

function sentenceOf(signature: ReturnType<typeof signatureOf>, known: readonly DeviceKey[]): string {
  if (signature === undefined) return 'This entry has no signature, though its device has a key and signs.';
  if (!known.some(({ keyId }) => keyId === signature.keyId))
    return `The signature of this entry is by the key ${signature.keyId}, which its device was not paired with.`;
  return 'The signature of this entry is wrong: its device did not write it, or it was changed before it came here.';
}
