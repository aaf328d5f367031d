// By which keys an entry is found again, so that recording one mark need not fold a whole logbook.
import { type Envelope, readEnvelope } from '../log/entry/index.ts';

/** Raised whenever keysOf changes; the lookup is then made anew. */
export const keysVersion = '6';

/** Kinds that every decision needs: the logbook, people, devices, blocks, stakes, clocks, files, emergency cards and calls. */
const frame: ReadonlySet<string> = new Set([
  'logbook-opened',
  'person-named',
  'personal-data-erased',
  'device-paired',
  'device-revoked',
  'block-laid-out',
  'prescription-set',
  'tally-scope-set',
  'stake-set',
  'clock-offset-noted',
  'import-made',
  'emergency-card-set',
  'call-expected',
  'call-made',
  'emergency-contacts-erased',
]);
/** Kinds that a decision needs of the groups that it comes upon, and of no others: there may be hundreds. */
const ofGroup: ReadonlySet<string> = new Set([
  'group-laid-out',
  'group-widened',
  'opening-closed',
  'opening-reopened',
]);
const labelled = ['tag', 'label', 'name'] as const;
const uuid = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;

export const frameKey = 'frame';

/** The entry of this id, and all that name it in whatever field: a thing, what was done to it, corrections. */
export function idKey(id: string): string {
  return `is:${id}`;
}

/** Entries that lay out, widen, close or reopen this group; not those about its stems. */
export function groupKey(group: string): string {
  return `group:${group}`;
}

/** Entries that give this tag or label to something. */
export function labelKey(label: string): string {
  return `label:${label.trim().toLowerCase()}`;
}

/** Entries that name the erasable row of this hash. */
export function sealedKey(hash: string): string {
  return `sealed:${hash}`;
}

/** All keys of one entry. */
export function keysOf(bytes: Uint8Array): string[] {
  const { id: own, type, body, sealed = [] } = readEnvelope(bytes);
  const keys = new Set([idKey(own)]);
  if (frame.has(type)) keys.add(frameKey);
  if (ofGroup.has(type) && typeof body.group === 'string') keys.add(groupKey(body.group));
  for (const id of JSON.stringify(body).match(uuid) ?? []) keys.add(idKey(id));
  for (const hash of sealed) keys.add(sealedKey(hash));
  for (const label of labelsIn(body)) keys.add(labelKey(label));
  return [...keys];
}

function labelsIn(body: Envelope['body']): string[] {
  const labels = labelled.flatMap((name) => (typeof body[name] === 'string' ? [body[name]] : []));
  const inner = body.body;
  return typeof inner === 'object' && inner !== null && !Array.isArray(inner)
    ? [...labels, ...labelsIn(inner as Envelope['body'])]
    : labels;
}
