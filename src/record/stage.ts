// A staged desk: drafts are decided one after the other as if each were recorded, and appended together,
// all or nothing. So a file of drafts may refer to what it brings in itself.
import { type Envelope, readEnvelope, writeEntry } from '../log/entry/index.ts';
import type { Incoming, Log, Lookup, Receipt, SealedRow, Stored } from '../log/store/index.ts';
import type { Desk } from './desk.ts';
import { keysOf } from './keys.ts';

export type Stage = Readonly<{
  /** Record here; nothing reaches the log before `commit`. */
  desk: Desk;
  count: () => number;
  /** Appends everything in one batch. */
  commit: () => Promise<Receipt[]>;
}>;

/** Puts a stage before a desk. */
export async function stage(desk: Desk): Promise<Stage> {
  const { size } = await desk.log.head();
  const staged: { stored: Stored; sealed: readonly SealedRow[] }[] = [];
  const byKey = new Map<string, Stored[]>();
  const rows = new Map<string, SealedRow>();

  const put = (incoming: Incoming, receivedAt: string): Receipt => {
    const position = size + staged.length;
    const { id } = readEnvelope(incoming.bytes);
    const stored: Stored = { position, receivedAt, bytes: incoming.bytes, id };
    staged.push({ stored, sealed: incoming.sealed ?? [] });
    for (const row of incoming.sealed ?? []) rows.set(row.hash, row);
    for (const key of keysOf(incoming.bytes)) byKey.set(key, [...(byKey.get(key) ?? []), stored]);
    return { outcome: 'recorded', id, position, receivedAt };
  };
  const lookup: Lookup = {
    positions: async (keys) => (await lookup.entries(keys)).map(({ position }) => position),
    entries: async (keys) => {
      const here = new Set(keys.flatMap((key) => byKey.get(key) ?? []));
      return [...(await desk.lookup.entries(keys)), ...[...here].sort((a, b) => a.position - b.position)];
    },
  };
  const log: Log = {
    ...desk.log,
    compose: async (_device, make, receivedAt) =>
      make(staged.length + 1).map((incoming) => put(incoming, receivedAt)),
    get: async (id) => staged.find(({ stored }) => stored.id === id)?.stored ?? desk.log.get(id),
    at: async (position) => staged[position - size]?.stored ?? desk.log.at(position),
    sealed: async (hash) => rows.get(hash) ?? desk.log.sealed(hash),
    read: async function* (range) {
      yield* desk.log.read(range);
      yield staged.map(({ stored }) => stored);
    },
  };
  const commit = () =>
    desk.log.compose(
      desk.device,
      (firstSeq) => {
        desk.counter.last = firstSeq + staged.length - 1;
        return staged.map(({ stored, sealed }, index) => ({
          bytes: numbered(readEnvelope(stored.bytes), firstSeq + index),
          sealed,
        }));
      },
      new Date(desk.outside.now()).toISOString(),
      { floor: desk.counter.last },
    );
  return { desk: { ...desk, log, lookup, counter: { last: 0 } }, count: () => staged.length, commit };
}

function numbered(envelope: Envelope, seq: number): Uint8Array {
  return writeEntry({ ...envelope, seq });
}
