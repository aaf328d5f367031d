// Reads times as people write them, in the logbook's time zone (IANA names, RFC 3339 on the way out).
// A change of clocks makes some local times ambiguous or impossible: those are asked back, not guessed.
import { Temporal } from 'temporal-polyfill';
import type { HappenedEntered } from './fields.ts';

export type Reading =
  | { ok: true; value: HappenedEntered }
  | { ok: false; remedy: string; choices?: readonly { label: string; value: HappenedEntered }[] };

const pattern =
  /^(?:(\d{4}-\d{2}-\d{2})|(today|yesterday))?(?:[T ]?\s*(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d{1,9})?))?)?\s*(Z|[+-]\d{2}:\d{2})?$/i;

/**
 * `2026-03-14 09:30`, `09:30` (today), `yesterday`, `2026-03-14` (known to the day), or RFC 3339 with offset.
 * @param zone IANA time zone that a time without offset is read in; one that this machine does not know
 * counts as UTC, so that a wrong zone in a logbook stops nobody from putting it right
 * @param now the moment of recording, RFC 3339
 */
export function readTime(text: string, zone: string, now: string): Reading {
  return readIn(text, knownZone(zone), now);
}

function readIn(text: string, zone: string, now: string): Reading {
  const written = text.trim();
  const parts = pattern.exec(written);
  if (!parts || written === '')
    return {
      ok: false,
      remedy: 'write 2026-03-14, 2026-03-14 09:30, 09:30, today, yesterday, or a time with offset',
    };
  const [, dateText, dayWord, hour, minute, second, offset] = parts;
  try {
    const date = dateText
      ? Temporal.PlainDate.from(dateText, { overflow: 'reject' })
      : today(zone, now, dayWord);
    if (hour === undefined) return { ok: true, value: { at: startOfDay(date, zone), precision: 'day' } };
    const time = Temporal.PlainTime.from(`${hour.padStart(2, '0')}:${minute}:${second ?? '00'}`);
    const precision = second === undefined ? 'minute' : 'instant';
    const local = date.toPlainDateTime(time);
    if (offset !== undefined) {
      Temporal.Instant.from(`${local.toString()}${offset.toUpperCase()}`); // refuses an impossible offset
      return { ok: true, value: { at: `${seconds(local)}${offset.toUpperCase()}`, precision } };
    }
    return inZone(local, zone, precision);
  } catch (error) {
    if (error instanceof RangeError)
      return { ok: false, remedy: 'there is no such day or time in the calendar' };
    throw error;
  }
}

function inZone(
  local: Temporal.PlainDateTime,
  zone: string,
  precision: HappenedEntered['precision'],
): Reading {
  const earlier = local.toZonedDateTime(zone, { disambiguation: 'earlier' });
  const later = local.toZonedDateTime(zone, { disambiguation: 'later' });
  if (earlier.equals(later)) return { ok: true, value: happening(earlier, precision) };
  const impossible = !earlier.toPlainDateTime().equals(local);
  return {
    ok: false,
    remedy: impossible
      ? `clocks were put forward in ${zone}: ${seconds(local).slice(11, 16)} did not happen that day`
      : `clocks were put back in ${zone}: ${seconds(local).slice(11, 16)} happened twice that day`,
    choices: [earlier, later].map((zoned) => ({
      label: seconds(zoned.toPlainDateTime()) + zoned.offset,
      value: happening(zoned, precision),
    })),
  };
}

/** The moment `epochMilliseconds` as RFC 3339 with the offset that the zone has then; an unknown zone is UTC. */
export function momentIn(zone: string, epochMilliseconds: number): string {
  const zoned = Temporal.Instant.fromEpochMilliseconds(epochMilliseconds).toZonedDateTimeISO(knownZone(zone));
  return zoned.toString({ timeZoneName: 'never', fractionalSecondDigits: 3 });
}

/** Whether the name is a time zone that this machine knows. */
export function isZone(name: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name);
    return true;
  } catch {
    return false;
  }
}

function knownZone(name: string): string {
  return isZone(name) ? name : 'UTC';
}

function today(zone: string, now: string, word: string | undefined): Temporal.PlainDate {
  const date = Temporal.Instant.from(now).toZonedDateTimeISO(zone).toPlainDate();
  return word?.toLowerCase() === 'yesterday' ? date.subtract({ days: 1 }) : date;
}

function startOfDay(date: Temporal.PlainDate, zone: string): string {
  const { offset } = date.toZonedDateTime(zone);
  return `${date.toString()}T00:00:00${offset}`;
}

function happening(zoned: Temporal.ZonedDateTime, precision: HappenedEntered['precision']): HappenedEntered {
  return { at: seconds(zoned.toPlainDateTime()) + zoned.offset, precision };
}

function seconds(local: Temporal.PlainDateTime): string {
  return local.toString({
    smallestUnit: local.millisecond + local.microsecond + local.nanosecond === 0 ? 'second' : 'millisecond',
  });
}
