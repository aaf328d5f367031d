// Stop cards: which are due after an entry, and how the page is told to show them. The cards' words and when they
// are due belong to the felling room.
import { createContext } from 'preact';
import type { JsonValue } from '../../../events/index.ts';
import { type StopReason, stopCards, stopReasons } from '../../../felling/index.ts';
import type { Folded, Stand } from '../../../stand/index.ts';

/** Shows cards before anything else, until each of them has been read. */
export const StopContext = createContext<(reasons: readonly StopReason[]) => Promise<void>>(async () => {});

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

export function isStopReason(value: unknown): value is StopReason {
  return typeof value === 'string' && Object.hasOwn(stopCards, value);
}
