// Appending: each incoming entry is recorded, found to be there, or kept aside; all in one transaction of the
// caller, together with the head.
import type { Database } from 'better-sqlite3';
import {
  type EntryIssue,
  type Envelope,
  type Frontier,
  leafBytes,
  leafHash,
  parseEnvelope,
  type Signature,
} from '../entry/index.ts';
import { sha256, sha256Hex } from './hash.ts';
import type { AppendOptions, Incoming, Receipt } from './port.ts';
import type { AsideShelf } from './put-aside.ts';
import { type EntryRow, entryColumns, signatureText } from './rows.ts';
import type { Sealing } from './sealing.ts';
import { laterOf } from './time.ts';
import type { Edge, Tree } from './tree.ts';

export type Appended = Readonly<{
  receipts: Receipt[];
  /** The edge after it; undefined when nothing was added. */
  edge: Edge | undefined;
  /** Whether rows were erased. */
  erased: boolean;
}>;

export type Appender = (
  incoming: readonly Incoming[],
  receivedAt: string,
  options?: Pick<AppendOptions, 'check' | 'rowsMayFollow'>,
) => Appended;

type Parts = Readonly<{ database: Database; tree: Tree; aside: AsideShelf; sealing: Sealing }>;

export function openAppender({ database, tree, aside, sealing }: Parts): Appender {
  const find = database.prepare<[string], EntryRow>(`SELECT ${entryColumns} FROM entry WHERE id = ?`);
  const insert = database.prepare<
    [number, string, string, number, Uint8Array, string, string | null, Uint8Array]
  >(`INSERT INTO entry (position, id, device, seq, bytes, received_at, signature, leaf)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?)`);

  return (incoming, time, { check, rowsMayFollow } = {}) => {
    const before = tree.edge();
    // "Known at" a time is a size of the log, so times of receipt never go back.
    const receivedAt = laterOf(time, before.lastReceivedAt);
    let frontier = before.frontier;
    let erased = false;
    const receipts = incoming.map((one): Receipt => {
      if (one.issue) return putAside(one, one.issue);
      const reading = parseEnvelope(one.bytes);
      if (!reading.ok) return putAside(one, reading.issue);
      const { envelope } = reading;
      const there = find.get(envelope.id);
      if (there) return again(one, envelope, there);
      const rows = one.sealed ?? [];
      const mayFollow = rowsMayFollow?.(envelope) ?? false;
      const issue =
        formIssue(one.signature) ?? sealing.issue(envelope, rows, mayFollow) ?? check?.(envelope, one);
      if (issue) return putAside(one, issue);
      const position = frontier.size;
      frontier = record(one, envelope, frontier, receivedAt);
      sealing.keep(rows);
      if (envelope.erases) {
        sealing.erase(envelope.erases, position);
        erased = true;
      }
      return { outcome: 'recorded', id: envelope.id, position, receivedAt };
    });
    const grew = frontier.size > before.frontier.size;
    return { receipts, edge: grew ? tree.move(frontier, receivedAt) : undefined, erased };

    function putAside(one: Incoming, issue: EntryIssue): Receipt {
      return { outcome: 'unreadable', issue, aside: aside.put(one, issue, receivedAt) };
    }

    function again(one: Incoming, envelope: Envelope, there: EntryRow): Receipt {
      const { id, position } = there;
      if (Buffer.compare(one.bytes, there.bytes) === 0) {
        // Rows that were not here yet may come with the entry when it is sent again.
        for (const row of one.sealed ?? []) sealing.supply(row, envelope);
        return { outcome: 'already-recorded', id, position, receivedAt: there.received_at };
      }
      const issue = {
        field: 'id',
        value: id,
        remedy: `another entry with this id stands at position ${position}; look at both, and record what is right as a new entry`,
      };
      return { outcome: 'conflict', id, position, aside: aside.put(one, issue, receivedAt, position) };
    }
  };

  function record(one: Incoming, envelope: Envelope, frontier: Frontier, receivedAt: string): Frontier {
    const leaf = leafHash(
      leafBytes({
        position: frontier.size,
        receivedAt,
        entryHash: sha256Hex(one.bytes),
        ...(one.signature ? { signature: one.signature } : {}),
      }),
      sha256,
    );
    insert.run(
      frontier.size,
      envelope.id,
      envelope.device,
      envelope.seq,
      one.bytes,
      receivedAt,
      signatureText(one.signature),
      leaf,
    );
    return tree.grown(frontier, leaf);
  }
}

/** An Ed25519 signature has 64 bytes: 86 characters of base64 and two equals signs (RFC 8032, RFC 4648). */
function formIssue(signature: Signature | undefined): EntryIssue | undefined {
  if (signature === undefined) return undefined;
  if (!/^(?:[0-9a-f]{2}){4,32}$/.test(signature.keyId))
    return { field: 'signature.keyId', value: signature.keyId, remedy: 'write the key id in lower-case hex' };
  if (!/^[A-Za-z0-9+/]{86}==$/.test(signature.signature))
    return {
      field: 'signature.signature',
      value: signature.signature.slice(0, 200),
      remedy: 'write the 64 bytes of the Ed25519 signature in base64',
    };
  return undefined;
}
