// Finding and opening the logbook that a command works on, and sitting this machine down at it.
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { v7 as newUuid } from 'uuid';
import {
  type Log,
  openLogbook,
  recallDevice,
  remember,
  rememberedDevice,
} from '../../src/log/store/index.ts';
import { type Desk, type Moment, type Outside, readStand, sitDown } from '../../src/record/index.ts';
import type { Folded } from '../../src/stand/index.ts';
import { exitCodes, Failure } from './failure.ts';
import { localTime } from './local-time.ts';
import { progress, tell } from './print.ts';

export type CommonOptions = { logbook?: string; json?: boolean };

export const outside: Outside = {
  now: () => Date.now(),
  newId: () => newUuid(),
  newSalt: () => new Uint8Array(randomBytes(16)),
  readFile: (path) => new Uint8Array(readFileSync(path)),
  localTime,
};

/** The path given by --logbook or GAPLEDGER_LOGBOOK. */
export function logbookPath(options: CommonOptions): string {
  const path = options.logbook ?? process.env.GAPLEDGER_LOGBOOK;
  if (path === undefined || path === '') {
    throw new Failure(
      exitCodes.noLogbook,
      'Say which logbook: --logbook FILE, or set GAPLEDGER_LOGBOOK. "gapledger init FILE" starts one.',
    );
  }
  return path;
}

/** Opens the logbook to read, hands it to `work` and closes it. */
export async function withLog<T>(options: CommonOptions, work: (log: Log) => Promise<T>): Promise<T> {
  const log = await openLogbook(logbookPath(options), { readOnly: true });
  try {
    return await work(log);
  } finally {
    await log.close();
  }
}

/** The stand at a moment; at a terminal it shows how far the log has been read. */
export async function standAt(log: Log, moment: Moment = {}): Promise<Folded> {
  const bar = progress('Entries read');
  const folded = await readStand(log, moment, bar.at);
  bar.end();
  return folded;
}

/** Opens the logbook to write as this machine's device; afterwards the machine remembers how far the log is. */
export async function withDesk<T>(options: CommonOptions, work: (desk: Desk) => Promise<T>): Promise<T> {
  const log = await openLogbook(logbookPath(options));
  try {
    const desk = await deskAt(log);
    const result = await work(desk);
    await rememberHead(desk);
    return result;
  } finally {
    await log.close();
  }
}

/** Sits this machine down at an open logbook; says so when entries that it saw before are gone. */
export async function deskAt(log: Log): Promise<Desk> {
  const { path, logbook, newer } = log.facts();
  if (newer)
    throw new Failure(
      exitCodes.noLogbook,
      `${path}: was written by a newer gapledger; it can be read here and not written to.`,
    );
  if (logbook === undefined)
    throw new Failure(
      exitCodes.noLogbook,
      `${path}: has no first entry. Start a new one with "gapledger init FILE".`,
    );
  const { device, lastSeq, person, lastHead } = rememberedDevice(path, logbook, outside.newId);
  const { size } = await log.head();
  if (lastHead && lastHead.size > size) {
    tell(
      `Warning: this machine saw ${lastHead.size} entries in this logbook before; now there are ${size}. Run "gapledger verify".`,
    );
  }
  return sitDown(
    log,
    { device, counter: { last: lastSeq }, refuses, ...(person === undefined ? {} : { person }) },
    outside,
  );
}

/** The felling model is loaded for what it can judge alone: an entry of another kind does not wait for it. */
const refuses: NonNullable<Desk['refuses']> = async (event) => {
  const type = event.type === 'entry-amended' ? event.body.type : event.type;
  if (type !== 'felling-default-set') return [];
  const { refusedDefaults } = await import('../../src/felling/index.ts');
  return refusedDefaults(event);
};

/** Who records on this machine, as far as somebody has said so. */
export function personHere(log: Log): string | undefined {
  const { path, logbook } = log.facts();
  return logbook === undefined ? undefined : recallDevice(path, logbook)?.person;
}

/** Keeps the head outside the file, so that entries cut off its end are noticed. */
export async function rememberHead({ log, device, counter, person: known }: Desk): Promise<void> {
  const { path, logbook } = log.facts();
  if (logbook === undefined) return;
  const person = recallDevice(path, logbook)?.person ?? known;
  const lastHead = await log.head();
  remember(path, logbook, {
    device,
    lastSeq: counter.last,
    lastHead,
    ...(person === undefined ? {} : { person }),
  });
}

/** Keeps who records on this machine when nobody is named. */
export function rememberPerson({ log, device, counter }: Desk, person: string): void {
  const { path, logbook } = log.facts();
  if (logbook !== undefined) remember(path, logbook, { device, lastSeq: counter.last, person });
}
