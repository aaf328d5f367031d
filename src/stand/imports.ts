// Files that were brought in: which entries were made from one, so that striking the import takes them all out.
import { eventOf, type LogEntry } from './entry.ts';

/**
 * Tells which entries were made from a file whose import is struck. They are those that the device wrote next after the
 * import, at the same moment, as many as the import says.
 * @param isStruck whether a strike of the entry of this id is in force
 */
export function takenOutBy(
  known: ReadonlyMap<string, LogEntry>,
  isStruck: (id: string) => boolean,
): (entry: LogEntry) => boolean {
  const byDevice = new Map<string, { first: number; last: number; recordedAt: string }[]>();
  for (const entry of known.values()) {
    if (entry.type !== 'import-made' || !isStruck(entry.id)) continue;
    const made = eventOf(entry);
    if (made?.type !== 'import-made') continue;
    const { device, seq, recordedAt } = entry;
    const span = { first: seq + 1, last: seq + made.body.entries, recordedAt };
    byDevice.set(device, [...(byDevice.get(device) ?? []), span]);
  }
  if (byDevice.size === 0) return () => false;
  return ({ device, seq, recordedAt }) =>
    byDevice
      .get(device)
      ?.some((span) => seq >= span.first && seq <= span.last && recordedAt === span.recordedAt) === true;
}
