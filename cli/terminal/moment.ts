// --at and --known-at: which moment, and with which knowledge.
import type { Log } from '../../src/log/store/index.ts';
import { type Moment, type MomentTyped, readMoment as read, readStand } from '../../src/record/index.ts';
import { exitCodes, Failure, problemSentence } from './failure.ts';

export type MomentOptions = MomentTyped;

/** Reads the two flags against this logbook. */
export async function readMoment(log: Log, options: MomentOptions): Promise<Moment> {
  if (options.at === undefined && options.knownAt === undefined) return {};
  const first = await readStand(log, { size: 1 });
  const zone = first.stand.logbook?.body.zone ?? 'UTC';
  const reading = await read(log, zone, options, new Date().toISOString());
  if (reading.ok) return reading.moment;
  throw new Failure(exitCodes.badInput, `${problemSentence(reading, `--${reading.field}`)}.`);
}
