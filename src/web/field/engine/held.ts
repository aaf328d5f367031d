// What this phone holds, in memory: every entry folded, where each stands, and the texts under seal. The databases
// are the truth; this follows them.
import type { Envelope } from '../../../log/entry/index.ts';
import { type Folded, type LogEntry, startFolding } from '../../../stand/index.ts';
import type { Attention, Outbox } from './port.ts';
import type { EntryRow, SealedTextRow } from './storage/rows.ts';

export type Held = Readonly<{
  /** Takes in rows as they stand in the database now. */
  take: (rows: readonly EntryRow[]) => void;
  takeTexts: (rows: readonly SealedTextRow[]) => void;
  dropTexts: (hashes: readonly string[]) => void;
  clear: () => void;
  folded: () => Folded;
  entry: (id: string) => LogEntry | undefined;
  /** The entry at a position of the logbook. */
  at: (position: number) => string | undefined;
  texts: ReadonlyMap<string, string>;
  waiting: () => readonly string[];
  attention: () => readonly Attention[];
  outbox: () => Omit<Outbox, 'photos'>;
  /** How many entries of a device are here, up to a sequence number. */
  countOf: (device: string, lastSeq: number) => number;
}>;

/** Kinds that are folded by their place in the logbook; getting one means folding anew. */
const foldedByPlace: ReadonlySet<string> = new Set(['logbook-opened', 'device-paired', 'device-revoked']);

type Status = Omit<EntryRow, 'text'>;
type Placed = Envelope & { position?: number; receivedAt?: string };

export function holdNothing(): Held {
  const statuses = new Map<string, Status>();
  const entries = new Map<string, Placed>();
  const positions = new Map<number, string>();
  const texts = new Map<string, string>();
  let folding = startFolding();

  const place = (entry: Placed, { position, receivedAt }: EntryRow): boolean => {
    if (entry.position === position && entry.receivedAt === receivedAt) return false;
    if (entry.position !== undefined) positions.delete(entry.position);
    delete entry.position;
    delete entry.receivedAt;
    if (position !== undefined && receivedAt !== undefined) Object.assign(entry, { position, receivedAt });
    return true;
  };
  /** Takes in one row; gives the entry if it is new here. */
  const takeOne = (row: EntryRow): { fresh?: Placed; again?: true } => {
    const known = entries.get(row.id);
    const entry = known ?? readRow(row);
    if (entry === undefined) return {};
    const moved = place(entry, row);
    if (row.position !== undefined) positions.set(row.position, row.id);
    const { text: _, ...status } = row;
    statuses.set(row.id, status);
    if (known !== undefined) return moved && foldedByPlace.has(entry.type) ? { again: true } : {};
    entries.set(row.id, entry);
    return { fresh: entry };
  };
  const take: Held['take'] = (rows) => {
    const taken = rows.map(takeOne);
    if (taken.some(({ again }) => again)) {
      folding = startFolding();
      folding.add(entries.values());
    } else folding.add(taken.flatMap(({ fresh }) => fresh ?? []));
  };
  const own = () => [...statuses].filter(([, status]) => status.own);
  return {
    take,
    takeTexts: (rows) => {
      for (const row of rows) texts.set(row.hash, new TextDecoder().decode(row.bytes));
    },
    dropTexts: (hashes) => {
      for (const hash of hashes) texts.delete(hash);
    },
    clear: () => {
      for (const all of [statuses, entries, positions, texts]) all.clear();
      folding = startFolding();
    },
    folded: () => folding.folded(),
    entry: (id) => entries.get(id),
    at: (position) => positions.get(position),
    texts,
    waiting: () => own().flatMap(([id, status]) => (status.waiting === undefined ? [] : [id])),
    attention: () =>
      [...statuses].flatMap(([id, { attention }]) =>
        attention === undefined ? [] : [{ id, type: entries.get(id)?.type ?? '', ...attention }],
      ),
    outbox: () => {
      const waiting = own().filter(([, status]) => status.position === undefined);
      const oldest = Math.min(...waiting.map(([, { savedAt }]) => savedAt));
      return {
        waiting: waiting.length,
        oldest: waiting.length === 0 ? undefined : oldest,
        sent: own().length - waiting.length,
      };
    },
    countOf: (device, lastSeq) =>
      [...entries.values()].filter((entry) => entry.device === device && entry.seq <= lastSeq).length,
  };
}

/** A row whose text a failing disk has spoiled is passed over: the others must still open. */
function readRow(row: EntryRow): Placed | undefined {
  try {
    return JSON.parse(row.text) as Placed;
  } catch {
    return undefined;
  }
}
