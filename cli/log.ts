// gapledger log: the entries in the order they came, with what became of each.

import { type Event, readBody } from '../src/events/index.ts';
import { knownNames, readStand } from '../src/record/index.ts';
import type { Folded, LogEntry } from '../src/stand/index.ts';
import { describe, words } from '../src/stand/index.ts';
import { type CommonOptions, exitCodes, Failure, say, sayJson, table, withLog } from './terminal/index.ts';

type Flags = CommonOptions & { last?: string; kind?: string; entry?: string };

export async function work(_words: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const folded = await readStand(log);
    const names = await knownNames(log, folded.stand);
    const line = (entry: LogEntry) => ({
      number: entry.position ?? 0,
      happened: entry.happenedAt,
      recordedAt: entry.recordedAt,
      kind: entry.type,
      standing: folded.standings.get(entry.id) ?? 'in force',
      says: sayEntry(entry, folded, names),
    });
    const entries = pick([...folded.entries.values()], flags);
    if (flags.entry !== undefined) {
      const [entry] = entries;
      if (entry) sayJson({ ...line(entry), entry });
      return;
    }
    if (flags.json) return sayJson(entries.map((entry) => ({ ...line(entry), entry })));
    say(
      table(
        [{ title: 'No.', right: true }, { title: 'When' }, { title: 'Kind' }, { title: 'What' }],
        entries
          .map(line)
          .map(({ number, happened, kind, standing, says }) => [
            String(number),
            happened.precision === 'day'
              ? happened.at.slice(0, 10)
              : happened.at.slice(0, 16).replace('T', ' '),
            words(kind),
            standing === 'in force' ? says : `(${standing}) ${says}`,
          ]),
      ),
    );
  });
}

function sayEntry(entry: LogEntry, folded: Folded, names: ReadonlyMap<string, string>): string {
  const reading = readBody(entry.type, entry.v, entry.body);
  if (reading.ok)
    return describe(reading.event, folded.stand, names).replace(/^an entry/, targetOf(reading.event, folded));
  return reading.newer ? reading.sentence : 'cannot be read';
}

/** The number of the entry that a correction names. */
function targetOf(event: Event, folded: Folded): string {
  const target =
    event.type === 'entry-amended'
      ? event.body.replaces
      : event.type === 'entry-struck'
        ? event.body.strikes
        : '';
  const position = folded.entries.get(target)?.position;
  return position === undefined ? 'an entry that is not here yet' : `entry ${position}`;
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
  const wanted =
    kind === undefined ? entries : entries.filter(({ type }) => type === kind.replaceAll(' ', '-'));
  if (last === undefined) return wanted;
  if (!/^\d+$/.test(last)) throw new Failure(exitCodes.badInput, `--last ${last}: write a whole number.`);
  return Number(last) === 0 ? [] : wanted.slice(-Number(last));
}
