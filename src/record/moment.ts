// Which moment somebody asks for, and with which knowledge: read against the logbook, the same way for the
// command line and the server.
import { readTime } from '../events/index.ts';
import type { TreeHead } from '../log/entry/index.ts';
import type { Log } from '../log/store/index.ts';
import { instantOf } from '../stand/index.ts';
import type { Moment } from './slice.ts';

/** As typed: a time; a size of the log or a time. */
export type MomentTyped = Readonly<{ at?: string | undefined; knownAt?: string | undefined }>;

export type MomentReading =
  | { ok: true; moment: Moment }
  | { ok: false; field: 'at' | 'known-at'; value: string; remedy: string };

/** The head of the log with the knowledge of a moment: at its size, or as it is. */
export async function headAt(log: Pick<Log, 'head' | 'rootAt'>, { size }: Moment = {}): Promise<TreeHead> {
  return size === undefined ? log.head() : { size, root: await log.rootAt(size) };
}

type Read = { ok: true; value: number } | { ok: false; remedy: string };

/** Reads both in the zone of the logbook. @param now RFC 3339 */
export async function readMoment(
  log: Pick<Log, 'head' | 'sizeReceivedBy'>,
  zone: string,
  { at, knownAt }: MomentTyped,
  now: string,
): Promise<MomentReading> {
  const until = at === undefined ? undefined : readInstant(at, zone, now);
  if (until?.ok === false) return { ok: false, field: 'at', value: at ?? '', remedy: until.remedy };
  const size = knownAt === undefined ? undefined : await readSize(log, zone, knownAt, now);
  if (size?.ok === false) return { ok: false, field: 'known-at', value: knownAt ?? '', remedy: size.remedy };
  return {
    ok: true,
    moment: { ...(until ? { until: until.value } : {}), ...(size ? { size: size.value } : {}) },
  };
}

async function readSize(
  log: Pick<Log, 'head' | 'sizeReceivedBy'>,
  zone: string,
  text: string,
  now: string,
): Promise<Read> {
  const { size } = await log.head();
  if (!/^\d+$/.test(text)) {
    const time = readInstant(text, zone, now);
    return time.ok ? { ok: true, value: await log.sizeReceivedBy(new Date(time.value).toISOString()) } : time;
  }
  if (Number(text) <= size) return { ok: true, value: Number(text) };
  return { ok: false, remedy: `the logbook has ${size} entries; give a number up to that, or a time` };
}

function readInstant(text: string, zone: string, now: string): Read {
  const reading = readTime(text, zone, now);
  if (reading.ok) return { ok: true, value: instantOf(reading.value) };
  const choices = reading.choices?.map(({ value }) => value.at).join(' or ');
  return {
    ok: false,
    remedy: choices === undefined ? reading.remedy : `${reading.remedy}; write ${choices}`,
  };
}
