// Times of the logbook: RFC 3339 in UTC with milliseconds, so that their texts sort as they do.
import { isTime } from '../entry/index.ts';

/**
 * The same moment in UTC, cut to milliseconds.
 * @throws RangeError when this is no RFC 3339 time with offset
 */
export function inUtc(field: string, time: string): string {
  if (!isTime(time)) {
    throw new RangeError(
      `${field}: "${time}" is no time; write RFC 3339 with offset, such as 2026-03-14T09:30:00-05:00.`,
    );
  }
  const text = new Date(time).toISOString();
  // Beyond the year 9999, or before the year 0, the text has a sign and no longer sorts.
  if (text.length !== 24) throw new RangeError(`${field}: "${time}" is too far away; check the clock.`);
  return text;
}

/** The later of two times in UTC. */
export function laterOf(a: string, b: string): string {
  return [a, b].sort()[1] ?? a;
}
