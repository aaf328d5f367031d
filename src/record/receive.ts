// Takes in what a device has saved: entries as bytes, appended whatever they contradict. What cannot be
// read is kept aside with a reason; what is here already changes nothing.
import { type Issue, type JsonObject, parseBody } from '../events/index.ts';
import type { EntryIssue, Envelope } from '../log/entry/index.ts';
import type { Incoming, Log, Receipt } from '../log/store/index.ts';

export type Received = Readonly<{
  receipts: readonly Receipt[];
  recorded: number;
  already: number;
  conflicts: number;
  unreadable: number;
}>;

/** Appends a batch from a device, all or nothing. `receivedAt` is RFC 3339 in UTC. */
export async function receive(log: Log, batch: readonly Incoming[], receivedAt: string): Promise<Received> {
  const receipts = await log.append(batch, receivedAt, { check: checkBody });
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

/** What is wrong with the body of an entry. Kinds and versions of a newer program are taken in unread. */
function checkBody(envelope: Envelope): EntryIssue | undefined {
  const reading = parseBody(envelope.type, envelope.v, envelope.body as JsonObject);
  return reading.ok || reading.newer ? undefined : inBody(reading.issues[0], 'body');
}

function inBody(issue: Issue | undefined, path: string): EntryIssue | undefined {
  if (issue === undefined) return undefined;
  return { ...issue, field: issue.field === 'body' ? path : `${path}.${issue.field}` };
}
