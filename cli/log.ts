// gapledger log: the entries in the order they came, with what became of each.
import { nearestKind, readBody } from '../src/events/index.ts';
import type { Log } from '../src/log/store/index.ts';
import { kindTyped, knownNames } from '../src/record/index.ts';
import { type Folded, isLate, type LogEntry, timeText, words } from '../src/stand/index.ts';
import { sayCaution } from './cautions.ts';
import { copyLog } from './log-copy.ts';
import { printEntry, versionsIn } from './log-entry.ts';
import { sayEvent } from './says.ts';
import {
  type CommonOptions,
  exitCodes,
  Failure,
  say,
  sayJson,
  standAt,
  table,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & { last?: string; kind?: string; entry?: string; copy?: string };

export async function work(_words: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    if (flags.copy !== undefined) return copyWhole(log, flags.copy, flags);
    const folded = await standAt(log);
    const names = await knownNames(log, folded);
    const line = (entry: LogEntry) => ({
      number: entry.position ?? 0,
      happened: entry.happenedAt,
      recordedAt: entry.recordedAt,
      kind: entry.type,
      standing: folded.standings.get(entry.id) ?? 'in force',
      late: isLate(entry.happenedAt, entry.recordedAt),
      says: sayEntry(entry, folded, names),
    });
    const entries = pick([...folded.entries.values()], flags);
    if (flags.entry !== undefined) {
      const [entry] = entries;
      if (entry === undefined) return;
      const versions = versionsIn(entry, folded);
      if (flags.json) return sayJson({ ...line(entry), entry, versions });
      return printEntry(line(entry), entry, versions, names);
    }
    if (flags.json) return sayJson(entries.map((entry) => ({ ...line(entry), entry })));
    sayCaution();
    say('');
    say(
      table(
        [{ title: 'No.', right: true }, { title: 'When' }, { title: 'Kind' }, { title: 'What' }],
        entries
          .map(line)
          .map(({ number, happened, kind, standing, late, says }) => [
            String(number),
            timeText(happened),
            words(kind),
            `${standing === 'in force' ? '' : `(${standing}) `}${says}${late ? ' (entered late)' : ''}`,
          ]),
      ),
    );
  });
}

/** A copy with gaps would look to a phone like a logbook that lost entries. */
async function copyWhole(log: Log, file: string, flags: Flags): Promise<void> {
  for (const name of ['last', 'kind', 'entry'] as const) {
    if (flags[name] !== undefined)
      throw new Failure(
        exitCodes.badInput,
        `--${name} "${flags[name]}": a copy holds all entries; leave it out.`,
      );
  }
  await copyLog(log, file, flags);
}

function sayEntry(entry: LogEntry, folded: Folded, names: ReadonlyMap<string, string>): string {
  const reading = readBody(entry.type, entry.v, entry.body);
  if (reading.ok) return sayEvent(reading.event, folded, names);
  return reading.newer ? reading.sentence : 'cannot be read';
}

function pick(entries: LogEntry[], { last, kind, entry }: Flags): LogEntry[] {
  if (entry !== undefined) {
    const found = entries.filter(
      ({ id, position }) => id === entry || String(position) === entry.replace(/^#/, ''),
    );
    if (found.length === 0)
      throw new Failure(
        exitCodes.badInput,
        `--entry ${entry}: there is no such entry; this logbook has ${entries.length}, numbered from 0.`,
      );
    return found;
  }
  const type = kind === undefined ? undefined : typeOf(kind, entries);
  const wanted = type === undefined ? entries : entries.filter((one) => one.type === type);
  if (last === undefined) return wanted;
  if (!/^\d+$/.test(last)) throw new Failure(exitCodes.badInput, `--last ${last}: write a whole number.`);
  return Number(last) === 0 ? [] : wanted.slice(-Number(last));
}

/** A kind of this program, or one that the logbook holds from a newer one. */
function typeOf(kind: string, entries: readonly LogEntry[]): string {
  const type = kindTyped(kind)?.type ?? entries.find((entry) => entry.type === kind)?.type;
  if (type !== undefined) return type;
  const near = nearestKind(kind);
  throw new Failure(
    exitCodes.badInput,
    `--kind "${kind}": there is no such kind; ${near === undefined ? '"gapledger record --help" lists them.' : `did you mean ${near}?`}`,
  );
}
