// The outbox in the database: what waits, in parts that fit into one sending, and what the logbook made of it.
import { type ExchangeJson, exchangeJson, readEnvelope } from '../../../../log/entry/index.ts';
import type { Core } from '../core.ts';
import { signEntry } from '../key.ts';
import { readTexts } from '../notebook.ts';
import type { EntryRow } from '../storage/rows.ts';
import type { Receipt } from './receipts.ts';

const mostLines = 200;
/** Characters of one sending; the logbook takes more, a weak signal does not. */
const mostText = 1_000_000;
const encoder = new TextEncoder();

/** What waits, in the order in which it was recorded, signed. */
export async function waitingRows(core: Core): Promise<EntryRow[]> {
  return signed(core, await core.notebook.read((db) => db.getAllFromIndex('entries', 'waiting')));
}

/** The entries that the logbook could not take; a newer logbook, or a phone paired anew, may succeed. */
export async function refusedRows(core: Core): Promise<EntryRow[]> {
  const ids = core.held.attention().map(({ id }) => id);
  const rows = await core.notebook.read((db) => Promise.all(ids.map((id) => db.get('entries', id))));
  return signed(core, rows.filter((row) => row?.own === true) as EntryRow[]);
}

/**
 * What this phone recorded before it had a key gets its signature now, over the bytes as they are: the logbook puts
 * an unsigned entry of a phone with a key aside.
 */
export async function signed(core: Core, rows: readonly EntryRow[]): Promise<EntryRow[]> {
  const { outside, values, notebook } = core;
  const [keys, device] = [values.get('keys'), values.get('device')];
  const added = new Map<string, EntryRow>();
  for (const row of rows) {
    if (row.signature !== undefined) continue;
    const bytes = encoder.encode(row.text);
    // A key speaks for its own device only.
    if (readEnvelope(bytes).device !== device) continue;
    const signature = await signEntry(outside, keys, bytes);
    if (signature !== undefined) added.set(row.id, { ...row, signature });
  }
  if (added.size > 0)
    await notebook.write(['entries'], async (transaction) => {
      const store = transaction.objectStore('entries');
      for (const { id, signature } of added.values()) {
        const here = await store.get(id);
        if (here !== undefined && signature !== undefined) await store.put({ ...here, signature });
      }
    });
  return rows.map((row) => added.get(row.id) ?? row);
}

export type Part = Readonly<{ rows: readonly EntryRow[]; lines: readonly ExchangeJson[] }>;

/** The rows as exchange lines with their texts under seal, in parts of at most 200 lines and about 1 MB. */
export async function partsOf(core: Core, rows: readonly EntryRow[]): Promise<Part[]> {
  const parts: { rows: EntryRow[]; lines: ExchangeJson[]; size: number }[] = [];
  for (const row of rows) {
    const line = await lineOf(core, row);
    const size = JSON.stringify(line).length;
    const last = parts.at(-1);
    if (last && last.rows.length < mostLines && last.size + size <= mostText) {
      last.rows.push(row);
      last.lines.push(line);
      last.size += size;
    } else parts.push({ rows: [row], lines: [line], size });
  }
  return parts;
}

async function lineOf({ notebook }: Core, row: EntryRow): Promise<ExchangeJson> {
  const bytes = encoder.encode(row.text);
  const hashes = readEnvelope(bytes).sealed ?? [];
  const sealed = hashes.length === 0 ? [] : await readTexts(notebook, hashes);
  return exchangeJson({ bytes, signature: row.signature, sealed });
}

/** Writes what the logbook said: a position takes an entry out of the outbox, a refusal puts it before a person. */
export async function settle(core: Core, receipts: readonly Receipt[]): Promise<void> {
  const { notebook, held } = core;
  const rows = await notebook.write(['entries'], async (transaction) => {
    const store = transaction.objectStore('entries');
    const settled: EntryRow[] = [];
    for (const receipt of receipts) {
      const row = await store.get(receipt.id);
      if (row === undefined) continue;
      const { waiting: _, attention: __, ...rest } = row;
      const next: EntryRow =
        'refusal' in receipt
          ? { ...rest, attention: receipt.refusal }
          : { ...rest, position: receipt.position, receivedAt: receipt.receivedAt };
      await store.put(next);
      settled.push(next);
    }
    return settled;
  });
  held.take(rows);
  core.tell({ entries: rows.map(({ id }) => id) });
  core.changed();
}
