// What the fold reads: an entry of the log with its place in it, and the order of happening.
import { type Event, kindOf, readBody } from '../events/index.ts';
import type { Envelope } from '../log/entry/index.ts';

/** An entry as it stands in a log or an outbox; `position` and `receivedAt` are the logbook's receipt. */
export type LogEntry = Envelope & Readonly<{ position?: number; receivedAt?: string }>;

/** An entry in its current version, ready to be folded. */
export type Happening = Readonly<{
  entry: LogEntry;
  /** Id of the version in force: the entry itself or its latest amendment. */
  version: string;
  event: Event;
  happenedAt: Envelope['happenedAt'];
  /** Milliseconds since 1970, the device's recorded clock offset allowed for. */
  instant: number;
}>;

/**
 * What an entry says, in the current version of its kind; undefined when this program cannot read it. An entry
 * of the current version is an event as it stands, so nothing is copied.
 */
export function eventOf(entry: Pick<LogEntry, 'type' | 'v' | 'body'>): Event | undefined {
  if (kindOf(entry.type)?.v === entry.v) return entry as unknown as Event;
  const reading = readBody(entry.type, entry.v, entry.body);
  return reading.ok ? reading.event : undefined;
}

const day = 86_400_000;

/**
 * When something happened, in milliseconds. Known only to the day: the end of that day, so that it sorts
 * after what is known better. The day is taken as 24 hours from its start.
 */
export function instantOf(happenedAt: Envelope['happenedAt']): number {
  const start = Date.parse(happenedAt.at);
  return happenedAt.precision === 'day' ? start + day - 1 : start;
}

/** Order of happening: instant, then device, sequence number, id. */
export function compareHappenings(a: Happening, b: Happening): number {
  return (
    a.instant - b.instant ||
    compareText(a.entry.device, b.entry.device) ||
    a.entry.seq - b.entry.seq ||
    compareText(a.entry.id, b.entry.id)
  );
}

export function compareText(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

/** Whether an entry was recorded on a later day than it happened, by the offset its time was written in. */
export function isLate(happenedAt: Envelope['happenedAt'], recordedAt: string): boolean {
  const offset = offsetOf(happenedAt.at);
  const happenedDay = Math.floor((Date.parse(happenedAt.at) + offset) / day);
  return Math.floor((Date.parse(recordedAt) + offset) / day) > happenedDay;
}

function offsetOf(time: string): number {
  const sign = time.at(-6);
  if (sign !== '+' && sign !== '-') return 0;
  const minutes = Number(time.slice(-5, -3)) * 60 + Number(time.slice(-2));
  return (sign === '-' ? -minutes : minutes) * 60_000;
}

/**
 * A time as it was written, as finely as it is known: `2026-03-14` for a day, otherwise
 * `2026-03-14 09:30`. The offset it was written in is kept, not told.
 */
export function timeText({ at, precision }: Envelope['happenedAt']): string {
  return precision === 'day' ? at.slice(0, 10) : at.slice(0, 16).replace('T', ' ');
}
