// A clock that is far off is recorded by itself, so that the order of happening allows for it. What was written keeps
// its times.
import { readBody } from '../../../events/index.ts';
import type { LogEntry } from '../../../stand/index.ts';
import type { Held } from './held.ts';
import type { Saved, Wanted } from './port.ts';
import type { Values } from './storage/meta.ts';

/**
 * So far from what is recorded a clock has to be before it is recorded anew, milliseconds; common practice, no source.
 */
const clockLimit = 2 * 60_000;
const units: Readonly<Record<string, number>> = { s: 1000, min: 60_000, h: 3_600_000 };

/** How far ahead this phone last recorded its clock to be, milliseconds; undefined when it never did. */
export function recordedAhead(entries: ReadonlyMap<string, LogEntry>, device: string): number | undefined {
  let last: LogEntry | undefined;
  for (const entry of entries.values())
    if (entry.type === 'clock-offset-noted' && entry.device === device && entry.body.device === device)
      if (last === undefined || entry.seq > last.seq) last = entry;
  const reading = last && readBody(last.type, last.v, last.body);
  if (!reading?.ok || reading.event.type !== 'clock-offset-noted') return undefined;
  const { value, unit } = reading.event.body.ahead;
  return Number(value) * (units[unit] ?? 0);
}

/** Records the clock when it is far off from what was recorded before: also when it was put right. */
export async function noteClock(
  { values, held }: Readonly<{ values: Values; held: Held }>,
  save: (wanted: Wanted) => Promise<Saved>,
): Promise<void> {
  const ahead = values.get('clockAhead');
  if (ahead === undefined || values.get('person') === undefined) return;
  const recorded = recordedAhead(held.folded().entries, values.get('device') ?? '') ?? 0;
  if (Math.abs(ahead - recorded) <= clockLimit) return;
  // A phone that cannot keep it now says so on the screen; nothing else is held up.
  await save({
    kind: 'clock-offset-noted',
    fields: { ahead: `${Math.round(ahead / 1000)} s` },
  }).catch(() => undefined);
}
