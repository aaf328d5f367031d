// A log in memory, as plain as it can be: the port's promises written down a second time, for the contract and for
// the model. Root and proofs come from the recursive text of RFC 9162; nothing of the store is used.
import { createHash } from 'node:crypto';
import { type EntryIssue, type Envelope, parseEnvelope, type TreeHead } from '../../src/log/entry/index.ts';
import type {
  AppendOptions,
  Aside,
  BackupMade,
  Incoming,
  Log,
  Receipt,
  SealedRow,
  Stored,
  Supplied,
} from '../../src/log/store/index.ts';
import { slowPath, slowProof, slowRoot } from './slow-tree.ts';

type State = {
  entries: Stored[];
  envelopes: Envelope[];
  aside: Aside[];
  /** Number aside of each delivery. */
  deliveries: Map<string, number>;
  sealed: Map<string, SealedRow>;
  erased: Map<string, number>;
  backups: BackupMade[];
};

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const sha256Hex = (...parts: Uint8Array[]): string =>
  createHash('sha256').update(Buffer.concat(parts)).digest('hex');

/** The bytes of a leaf as log/entry describes them in words. */
export function leafText({ position, receivedAt, bytes, signature }: Stored): Uint8Array {
  const signed = signature ? `ed25519 ${signature.keyId} ${signature.signature}` : '-';
  return Buffer.from(
    ['gapledger leaf 1', position, receivedAt, sha256Hex(bytes), signed, ''].join('\n'),
    'utf8',
  );
}

export function memoryLog(): Log {
  let state: State = {
    entries: [],
    envelopes: [],
    aside: [],
    deliveries: new Map(),
    sealed: new Map(),
    erased: new Map(),
    backups: [],
  };

  const rootAt = async (size: number): Promise<string> => {
    if (!Number.isSafeInteger(size) || size < 0 || size > state.entries.length) throw new RangeError('size');
    return hex(slowRoot(leaves(size)));
  };
  const head = async (): Promise<TreeHead> => ({
    size: state.entries.length,
    root: await rootAt(state.entries.length),
  });

  return {
    facts() {
      const [first] = state.entries;
      const logbook = first ? { logbook: first.id } : {};
      return { path: 'memory', ...logbook, format: 1, readOnly: false, newer: false };
    },
    head,
    rootAt,
    append: async (incoming, receivedAt, options) => appendAll(incoming, receivedAt, options),
    compose: async (device, make, receivedAt, options) => {
      return appendAll(make(Math.max(lastSeq(device), options?.floor ?? 0) + 1), receivedAt, options);
    },
    async *read({ from = 0, to = Number.POSITIVE_INFINITY } = {}) {
      const entries = state.entries.filter(({ position }) => position >= from && position < to);
      for (let start = 0; start < entries.length; start += 1000) yield entries.slice(start, start + 1000);
    },
    lastSeq: async (device) => lastSeq(device),
    get: async (id) => state.entries.find((entry) => entry.id === id),
    at: async (position) => state.entries[position],
    async sizeReceivedBy(time) {
      const limit = new Date(time).toISOString();
      return state.entries.filter(({ receivedAt }) => receivedAt <= limit).length;
    },
    aside: async () => state.aside.map(withSettled),
    setAside: async (bytes, issue, receivedAt) =>
      putAside(state, { bytes }, issue, new Date(receivedAt).toISOString()),
    sealed: async (hash) => state.sealed.get(hash),
    async supplySealed(row, entry) {
      const at = state.entries.findIndex(({ id }) => id === entry);
      return supply(state, row, state.envelopes[at]?.sealed ?? []);
    },
    missingRows: async (hashes) =>
      hashes.filter((hash) => !state.sealed.has(hash) && !state.erased.has(hash)),
    async inclusionProof(position, size) {
      await rootAt(size);
      return slowPath(position, leaves(size));
    },
    async consistencyProof(from, to) {
      await rootAt(to);
      return slowProof(from, leaves(to));
    },
    lookup(keysOf) {
      const found = (keys: readonly string[]): Stored[] =>
        state.entries.filter((entry) => keysOf(entry).some((key) => keys.includes(key)));
      return {
        positions: async (keys) => found(keys).map(({ position }) => position),
        entries: async (keys) => found(keys),
      };
    },
    noteBackup: async (backup) => void state.backups.push(backup),
    lastBackup: async () => state.backups.at(-1),
    close: async () => undefined,
  };

  function lastSeq(device: string): number {
    return Math.max(0, ...state.envelopes.filter((one) => one.device === device).map((one) => one.seq));
  }

  function leaves(size: number): Uint8Array[] {
    return state.entries.slice(0, size).map(leafText);
  }

  /** Works on a copy, which becomes the state when all went well. */
  function appendAll(incoming: readonly Incoming[], time: string, options: AppendOptions = {}): Receipt[] {
    const next: State = {
      entries: [...state.entries],
      envelopes: [...state.envelopes],
      aside: [...state.aside],
      deliveries: new Map(state.deliveries),
      sealed: new Map(state.sealed),
      erased: new Map(state.erased),
      backups: state.backups,
    };
    const last = state.entries.at(-1)?.receivedAt ?? '';
    const given = new Date(time).toISOString();
    const receivedAt = [given, last].sort()[1] ?? given;
    const receipts = incoming.map((one) => appendOne(next, one, receivedAt, options));
    if (options.dryRun !== true) state = next;
    return receipts;
  }

  function withSettled(aside: Aside): Aside {
    if (aside.conflictsWith !== undefined) return aside;
    const ids = idsIn(aside.bytes);
    const settledBy = state.entries.find((entry) => ids.includes(entry.id))?.position;
    return settledBy === undefined ? aside : { ...aside, settledBy };
  }
}

function idsIn(bytes: Uint8Array): unknown[] {
  try {
    return [(JSON.parse(Buffer.from(bytes).toString()) as { id?: unknown }).id];
  } catch {
    return [];
  }
}

function appendOne(
  state: State,
  one: Incoming,
  receivedAt: string,
  { check, rowsMayFollow }: AppendOptions,
): Receipt {
  const reading = parseEnvelope(one.bytes);
  const refuse = (issue: EntryIssue): Receipt => ({
    outcome: 'unreadable',
    issue,
    aside: putAside(state, one, issue, receivedAt),
  });
  if (one.issue) return refuse(one.issue);
  if (!reading.ok) return refuse(reading.issue);
  const { envelope } = reading;
  const { id } = envelope;
  const there = state.entries.find((entry) => entry.id === id);
  if (there) {
    const { position } = there;
    if (hex(there.bytes) === hex(one.bytes)) {
      supplyAll(state, one, envelope);
      return { outcome: 'already-recorded', id, position, receivedAt: there.receivedAt };
    }
    const issue = { field: 'id', value: id, remedy: 'look at both' };
    return { outcome: 'conflict', id, position, aside: putAside(state, one, issue, receivedAt, position) };
  }
  const rows = one.sealed ?? [];
  const mayFollow = rowsMayFollow?.(envelope) === true;
  const issue = signatureIssue(one) ?? rowsIssue(state, envelope, rows, mayFollow) ?? check?.(envelope, one);
  if (issue) return refuse(issue);
  const position = state.entries.length;
  const signature = one.signature ? { signature: one.signature } : {};
  state.entries.push({ position, receivedAt, bytes: one.bytes, id, ...signature });
  state.envelopes.push(envelope);
  for (const row of rows) {
    if (!state.erased.has(row.hash) && !state.sealed.has(row.hash)) state.sealed.set(row.hash, row);
  }
  for (const hash of envelope.erases ?? []) {
    if (!state.erased.has(hash)) state.erased.set(hash, position);
    state.sealed.delete(hash);
    state.aside = state.aside.map((aside) => ({
      ...aside,
      sealed: aside.sealed.filter((row) => row.hash !== hash),
    }));
  }
  return { outcome: 'recorded', id, position, receivedAt };
}

function putAside(
  state: State,
  one: Incoming,
  issue: EntryIssue,
  receivedAt: string,
  conflictsWith?: number,
): number {
  const rows = one.sealed ?? [];
  const delivery = JSON.stringify([
    hex(one.bytes),
    one.signature ?? null,
    rows.map((row) => [row.hash, hex(row.salt), hex(row.bytes), row.mediaType]),
  ]);
  const there = state.deliveries.get(delivery);
  if (there !== undefined) return there;
  const number = state.aside.length + 1;
  const sealed = rows.filter(
    (row) => !state.erased.has(row.hash) && !state.erased.has(sha256Hex(row.salt, row.bytes)),
  );
  const conflict = conflictsWith === undefined ? {} : { conflictsWith };
  const signature = one.signature ? { signature: one.signature } : {};
  state.aside.push({
    number,
    receivedAt,
    bytes: one.bytes,
    issue,
    ...conflict,
    ...signature,
    sealed,
  });
  state.deliveries.set(delivery, number);
  return number;
}

function signatureIssue({ signature }: Incoming): EntryIssue | undefined {
  if (signature === undefined) return undefined;
  const good =
    /^(?:[0-9a-f]{2}){4,32}$/.test(signature.keyId) && /^[A-Za-z0-9+/]{86}==$/.test(signature.signature);
  return good ? undefined : { field: 'signature', value: signature.signature, remedy: 'send it whole' };
}

function isSound(row: SealedRow): boolean {
  return row.salt.length === 16 && sha256Hex(row.salt, row.bytes) === row.hash;
}

function supply(state: State, row: SealedRow, named: readonly string[]): Supplied {
  if (!named.includes(row.hash)) return 'not-named';
  if (!isSound(row)) return 'changed';
  if (state.erased.has(row.hash)) return 'erased';
  if (state.sealed.has(row.hash)) return 'already-kept';
  state.sealed.set(row.hash, row);
  return 'kept';
}

function supplyAll(state: State, one: Incoming, envelope: Envelope): void {
  for (const row of one.sealed ?? []) supply(state, row, envelope.sealed ?? []);
}

function rowsIssue(
  state: State,
  envelope: Envelope,
  rows: readonly SealedRow[],
  mayFollow: boolean,
): EntryIssue | undefined {
  const named = envelope.sealed ?? [];
  const sound = rows.every((row) => isSound(row) && named.includes(row.hash));
  const here = (hash: string): boolean =>
    state.sealed.has(hash) || state.erased.has(hash) || rows.some((row) => row.hash === hash);
  return sound && (mayFollow || named.every(here))
    ? undefined
    : { field: 'sealed', value: '', remedy: 'send the rows with the entry' };
}
