// Stop cards: which are due after an entry, and how the page is told to show them. The cards' words and when they
// are due belong to the felling room.
import { createContext } from 'preact';
import type { EventType, JsonValue } from '../../../events/index.ts';
import { type StopReason, stopCards, stopReasons } from '../../../felling/index.ts';
import { type Folded, type Stand, startFolding } from '../../../stand/index.ts';

export type Stops = Readonly<{
  /** An entry that may ask for cards is about to be saved: a page that is killed then looks at it when it opens. */
  expect: () => Promise<void>;
  /** Shows cards before anything else, until each of them has been read; without any, nothing is expected any more. */
  show: (reasons: readonly StopReason[]) => Promise<void>;
}>;
export const StopContext = createContext<Stops>({ expect: async () => {}, show: async () => {} });

/** Kinds after which a card may be due. */
export const mayStop: ReadonlySet<EventType> = new Set(['stem-felled', 'decay-measured', 'hazard-noted']);

type Before = Readonly<{ stand: Stand; fields: Readonly<Record<string, JsonValue>> }>;

/**
 * Looks at the stem as it is before an entry, for the stand goes on with the entry. Gives the function that says,
 * once the entry is in, which cards are due.
 */
export function stopsAfter({ stand, fields }: Before): (folded: Folded, entry: string) => StopReason[] {
  const id = typeof fields.stem === 'string' ? fields.stem : undefined;
  const stem = id === undefined ? undefined : stand.stems.get(id);
  const stems = stem === undefined ? stand.stems : new Map(stand.stems).set(stem.id, { ...stem });
  const before: Stand = { ...stand, stems };
  return (folded, entry) => {
    const happening = folded.happenings.findLast((one) => one.entry.id === entry);
    return happening === undefined ? [] : stopReasons(before, happening.event, happening.happenedAt.at);
  };
}

/** The cards that are due after what this phone recorded since a number of its own. */
export function stopsSince({ entries }: Folded, device: string, since: number): StopReason[] {
  const isFresh = (entry: { device: string; seq: number }) => entry.device === device && entry.seq > since;
  const fresh = [...entries.values()].filter(isFresh).sort((a, b) => a.seq - b.seq);
  if (fresh.length === 0) return [];
  const folding = startFolding();
  folding.add([...entries.values()].filter((entry) => !isFresh(entry)));
  return fresh.flatMap((entry) => {
    const cards = stopsAfter({ stand: folding.folded().stand, fields: entry.body });
    folding.add([entry]);
    return cards(folding.folded(), entry.id);
  });
}

/** The last number that this phone used, as far as its entries are here. */
export function lastSeqOf({ entries }: Folded, device: string): number {
  let last = 0;
  for (const entry of entries.values()) if (entry.device === device) last = Math.max(last, entry.seq);
  return last;
}

export function isStopReason(value: unknown): value is StopReason {
  return typeof value === 'string' && Object.hasOwn(stopCards, value);
}
