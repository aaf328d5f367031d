// Findings about how the log was kept: late entries, dates in the future, clocks that run backwards.
import { compareText, type Happening, isLate, type LogEntry } from './entry.ts';
import type { Finding } from './findings.ts';
import { words } from './labels.ts';

/** A minute and a half of grace: entries typed to the minute may be ahead of the clock by as much. */
const graceMilliseconds = 90_000;

/** Adds the findings that one happening gives rise to by its times. */
export function addTimeFindings(happening: Happening, findings: Finding[]): void {
  const { entry, happenedAt } = happening;
  // Recorded as it happened, as most entries are.
  if (happenedAt.at === entry.recordedAt) return;
  const base = { entries: [entry.id], about: {}, at: happenedAt.at };
  if (isLate(happenedAt, entry.recordedAt)) {
    findings.push({
      ...base,
      code: 'late-entry',
      sentence: `"${words(entry.type)}" of ${happenedAt.at.slice(0, 10)} was recorded on ${entry.recordedAt.slice(0, 10)}.`,
      remedy: 'Nothing to do; if it was copied from paper, keep the paper.',
    });
  }
  if (Date.parse(happenedAt.at) > Date.parse(entry.recordedAt) + graceMilliseconds) {
    findings.push({
      ...base,
      code: 'date-in-future',
      sentence: `"${words(entry.type)}" is dated ${happenedAt.at}, after it was recorded (${entry.recordedAt}).`,
      remedy: "Check the day and the device's clock; amend the time, or note the clock's offset.",
    });
  }
}

/** Devices whose entries go back in time: a later sequence number with an earlier time of recording. */
export function clockFindings(known: ReadonlyMap<string, LogEntry>): Finding[] {
  const inSequence = isInSequence(known.values())
    ? known.values()
    : [...known.values()].sort(compareSequence);
  const last = new Map<string, LogEntry>();
  const found: Finding[] = [];
  for (const entry of inSequence) {
    const before = last.get(entry.device);
    if (before && isBefore(entry.recordedAt, before.recordedAt))
      found.push(backwards(entry.device, before, entry));
    last.set(entry.device, entry);
  }
  return found;
}

/** Whether the entries of each device come one after the other, as they nearly always do. */
function isInSequence(entries: Iterable<LogEntry>): boolean {
  const last = new Map<string, LogEntry>();
  for (const entry of entries) {
    const before = last.get(entry.device);
    if (before && compareSequence(before, entry) > 0) return false;
    last.set(entry.device, entry);
  }
  return true;
}

function compareSequence(a: LogEntry, b: LogEntry): number {
  return a.seq - b.seq || compareText(a.id, b.id);
}

/** Times that are written alike, as one device does, need not be parsed to be compared. */
function isBefore(a: string, b: string): boolean {
  return a.endsWith('Z') && a.length === b.length && b.endsWith('Z') ? a < b : Date.parse(a) < Date.parse(b);
}

function backwards(device: string, before: LogEntry, entry: LogEntry): Finding {
  return {
    code: 'clock-ran-backwards',
    entries: [before.id, entry.id],
    about: { device },
    sentence: `The clock of a device ran backwards: ${before.recordedAt} was followed by ${entry.recordedAt}.`,
    remedy: 'Compare its clock with another one and record "clock offset noted" if it was wrong.',
    at: entry.recordedAt,
  };
}

/**
 * A recorded clock offset: from when on, by the device's own clock, and by how much it was ahead. `seq` where the
 * device noted it itself: its counter tells what it recorded before and after, which a clock that jumped cannot.
 */
type Offset = { since: number; aheadMilliseconds: number; id: string; seq: number | undefined };
const milliseconds: Readonly<Record<string, number>> = { s: 1000, min: 60_000, h: 3_600_000 };

export type ClockShift = (entry: LogEntry, instant: number) => number;

/**
 * The shift of instants that the recorded clock offsets ask for. For one entry the offset with the latest start
 * applies. Of several with the same start those that the device noted itself come first: the first one noted after
 * the entry was recorded, for it was measured with that clock, else the last one; of others the later id.
 */
export function clockShift(happenings: Iterable<Happening>): ClockShift | undefined {
  const byDevice = new Map<string, Offset[]>();
  for (const { entry, event } of happenings) {
    if (event.type !== 'clock-offset-noted') continue;
    const { device, ahead, since } = event.body;
    const offsets = byDevice.get(device) ?? [];
    byDevice.set(device, offsets);
    offsets.push({
      since: since === undefined ? Number.NEGATIVE_INFINITY : Date.parse(since.at),
      aheadMilliseconds: Number(ahead.value) * (milliseconds[ahead.unit] ?? 0),
      id: entry.id,
      seq: entry.device === device ? entry.seq : undefined,
    });
  }
  if (byDevice.size === 0) return undefined;
  return (entry, instant) => {
    const offset = offsetFor(entry, instant, byDevice.get(entry.device) ?? []);
    return offset === undefined ? instant : instant - offset.aheadMilliseconds;
  };
}

function offsetFor({ seq }: LogEntry, instant: number, offsets: readonly Offset[]): Offset | undefined {
  let best: Offset | undefined;
  for (const offset of offsets)
    if (offset.since <= instant && (best === undefined || comesFirst(offset, best, seq))) best = offset;
  return best;
}

function comesFirst(one: Offset, other: Offset, seq: number): boolean {
  if (one.since !== other.since) return one.since > other.since;
  if (one.seq === undefined || other.seq === undefined)
    return one.seq === other.seq ? compareText(one.id, other.id) > 0 : one.seq !== undefined;
  const [after, otherAfter] = [one.seq >= seq, other.seq >= seq];
  if (after !== otherAfter) return after;
  return after ? one.seq < other.seq : one.seq > other.seq;
}
