// The desk: one device that writes into one logbook. What comes from outside the process (clock, new
// ids, salt, files) is handed in, so that everything else here can be tested.
import { type Event, type Issue, momentIn } from '../events/index.ts';
import type { Log, Lookup } from '../log/store/index.ts';
import { keysOf, keysVersion } from './keys.ts';

export type Outside = Readonly<{
  /** Milliseconds since 1970. */
  now: () => number;
  /** A new UUIDv7; later ones sort later. */
  newId: () => string;
  /** Sixteen random bytes. */
  newSalt: () => Uint8Array;
  /** Reads a file that a person named (a photo); absent where there are no files. */
  readFile?: (path: string) => Uint8Array;
  /** A moment as RFC 3339 in a zone, where that is known without the tables of all zones; undefined where it is not. */
  localTime?: (zone: string, epochMilliseconds: number) => string | undefined;
}>;

/** The moment as RFC 3339 with the offset of a zone; one that nobody knows counts as UTC. */
export function timeIn(outside: Outside, zone: string, epochMilliseconds: number): string {
  return outside.localTime?.(zone, epochMilliseconds) ?? momentIn(zone, epochMilliseconds);
}

export type Desk = Readonly<{
  log: Log;
  lookup: Lookup;
  device: string;
  /** The last sequence number that this device used, counted on as it records; 0 when none. */
  counter: { last: number };
  /** Who records, unless an entry says otherwise. */
  person?: string;
  /** What rooms that this one does not know refuse of what somebody types, such as a number that the felling model has not. */
  refuses?: (event: Event) => Promise<readonly Issue[]>;
  outside: Outside;
}>;

/** Sits a device down at a logbook. */
export function sitDown(
  log: Log,
  who: Pick<Desk, 'device' | 'counter' | 'person' | 'refuses'>,
  outside: Outside,
): Desk {
  const lookup = log.lookup((stored) => keysOf(stored.bytes), keysVersion);
  return { ...who, log, lookup, outside };
}
