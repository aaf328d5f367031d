// --at and --known-at: which moment, and with which knowledge.
import { readTime } from '../../src/events/index.ts';
import type { Log } from '../../src/log/store/index.ts';
import { type Moment, readStand } from '../../src/record/index.ts';
import { instantOf } from '../../src/stand/index.ts';
import { exitCodes, Failure } from './failure.ts';

export type MomentOptions = { at?: string; knownAt?: string };

/** Reads --at (a time) and --known-at (a size of the log, or a time) against this logbook. */
export async function readMoment(log: Log, options: MomentOptions): Promise<Moment> {
  if (options.at === undefined && options.knownAt === undefined) return {};
  const first = await readStand(log, { size: 1 });
  const zone = first.stand.logbook?.body.zone ?? 'UTC';
  const until = options.at === undefined ? undefined : time('at', options.at, zone);
  const size = options.knownAt === undefined ? undefined : await knownSize(log, options.knownAt, zone);
  return { ...(until === undefined ? {} : { until }), ...(size === undefined ? {} : { size }) };
}

async function knownSize(log: Log, text: string, zone: string): Promise<number> {
  const head = await log.head();
  if (!/^\d+$/.test(text)) return log.sizeReceivedBy(new Date(time('known-at', text, zone)).toISOString());
  const size = Number(text);
  if (size <= head.size) return size;
  throw new Failure(
    exitCodes.badInput,
    `--known-at ${text}: this logbook has ${head.size} entries; give a size up to that, or a time.`,
  );
}

function time(flag: string, text: string, zone: string): number {
  const reading = readTime(text, zone, new Date().toISOString());
  if (reading.ok) return instantOf(reading.value);
  const choices = reading.choices?.map(({ value }) => value.at).join(' or ');
  throw new Failure(
    exitCodes.badInput,
    `--${flag} ${text}: ${reading.remedy}.${choices === undefined ? '' : ` Write ${choices}.`}`,
  );
}
