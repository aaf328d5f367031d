// Takes in what a device has saved: entries as bytes, appended whatever they contradict. What cannot be
// read is kept aside with a reason; what is here already changes nothing.
import { type Issue, type JsonObject, parseBody } from '../events/index.ts';
import { type EntryIssue, type Envelope, parseEnvelope, signatureIssue } from '../log/entry/index.ts';
import {
  type Incoming,
  type IncomingCheck,
  type Log,
  type Receipt,
  verifyEd25519,
} from '../log/store/index.ts';
import { type DeviceKeys, deviceKeys } from './device-keys.ts';

export type ReceiveOptions = Readonly<{
  /** Says what would become of everything; nothing is kept. */
  dryRun?: boolean;
  /** A paired device sends it, and nobody at the desk looks on: it may not pair or revoke devices. */
  unattended?: boolean;
}>;

export type Received = Readonly<{
  receipts: readonly Receipt[];
  recorded: number;
  already: number;
  conflicts: number;
  unreadable: number;
}>;

/**
 * Appends a batch from a device, all or nothing. Entries of a device that has a key in the log go in with a signature
 * that holds; others of it are kept aside. A pairing counts from the next entry on.
 * @param receivedAt RFC 3339 in UTC
 */
export async function receive(
  log: Log,
  batch: readonly Incoming[],
  receivedAt: string,
  { dryRun = false, unattended = false }: ReceiveOptions = {},
): Promise<Received> {
  const keys = await deviceKeys(log, devicesIn(batch));
  const receipts = await log.append(batch, receivedAt, {
    check: checkWith(keys, unattended),
    rowsMayFollow,
    dryRun,
  });
  const count = (outcome: Receipt['outcome']) =>
    receipts.filter((receipt) => receipt.outcome === outcome).length;
  return {
    receipts,
    recorded: count('recorded'),
    already: count('already-recorded'),
    conflicts: count('conflict'),
    unreadable: count('unreadable'),
  };
}

/** Photos are large, and a phone sends them when there is time; names and contacts come with their entry. */
export function rowsMayFollow({ type }: Envelope): boolean {
  return type === 'photo-taken';
}

/** The devices that wrote the readable entries of a batch. */
export function devicesIn(batch: readonly Incoming[]): Set<string> {
  return new Set(
    batch.flatMap(({ bytes, issue }) => {
      const reading = issue === undefined ? parseEnvelope(bytes) : undefined;
      return reading?.ok ? [reading.envelope.device] : [];
    }),
  );
}

/** Kinds that say who may record: for the desk to decide. */
const aboutDevices: ReadonlySet<string> = new Set(['device-paired', 'device-revoked']);

function checkWith(keys: DeviceKeys, unattended: boolean): IncomingCheck {
  return (envelope, incoming) => {
    const issue =
      issueOfSignature(envelope, incoming, keys) ??
      (unattended ? issueOfKind(envelope) : undefined) ??
      issueOfBody(envelope);
    if (issue === undefined) keys.note(envelope);
    return issue;
  };
}

function issueOfSignature(
  { device }: Envelope,
  incoming: Incoming,
  keys: DeviceKeys,
): EntryIssue | undefined {
  const known = keys.of(device);
  return known.length === 0 ? undefined : signatureIssue(incoming, known, verifyEd25519);
}

function issueOfKind({ type }: Envelope): EntryIssue | undefined {
  if (!aboutDevices.has(type)) return undefined;
  return { field: 'type', value: type, remedy: 'devices are paired and revoked at the desk; do it there' };
}

/** What is wrong with the body of an entry. Kinds and versions of a newer program are taken in unread. */
function issueOfBody(envelope: Envelope): EntryIssue | undefined {
  const reading = parseBody(envelope.type, envelope.v, envelope.body as JsonObject);
  return reading.ok || reading.newer ? undefined : inBody(reading.issues[0], 'body');
}

function inBody(issue: Issue | undefined, path: string): EntryIssue | undefined {
  if (issue === undefined) return undefined;
  return { ...issue, field: issue.field === 'body' ? path : `${path}.${issue.field}` };
}
