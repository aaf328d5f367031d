// One entry with everything it says, and what later entries made of it.
import type { JsonValue } from '../src/events/index.ts';
import { type EntryVersion, type Folded, type LogEntry, versionsOf, words } from '../src/stand/index.ts';
import { paint, say, table } from './terminal/index.ts';

/** The entry as first recorded, or an amendment or a strike of it. */
type Version = Readonly<{
  number: number;
  recordedAt: string;
  /** What was done to the entry: recorded, amended or struck. */
  did: 'recorded' | 'amended' | 'struck';
  body?: LogEntry['body'];
  happenedAt?: LogEntry['happenedAt'];
  reason?: string;
  inForce: boolean;
}>;

/** All versions of an entry; one alone when nothing was put right. */
export function versionsIn(entry: LogEntry, folded: Folded): Version[] {
  return versionsOf(entry.id, folded).map(versionFrom);
}

function versionFrom({ entry, did, inForce }: EntryVersion): Version {
  const base = { number: entry.position ?? 0, recordedAt: entry.recordedAt, did, inForce };
  if (did === 'recorded') return { ...base, body: entry.body, happenedAt: entry.happenedAt };
  const { body, reason, happenedAt } = entry.body;
  const why = typeof reason === 'string' ? { reason } : {};
  if (did === 'struck') return { ...base, ...why };
  return {
    ...base,
    ...why,
    body: body as LogEntry['body'],
    happenedAt: happenedAt as LogEntry['happenedAt'],
  };
}

type Line = Readonly<{ number: number; kind: string; standing: string; late: boolean; says: string }>;

export function printEntry(
  { number, kind, standing, late, says }: Line,
  entry: LogEntry,
  versions: readonly Version[],
  names: ReadonlyMap<string, string>,
): void {
  say(`${paint.bold(`Entry ${number}: ${words(kind)}`)} (${standing}${late ? ', entered late' : ''})`);
  say(says);
  say(`Recorded ${entry.recordedAt} by ${entry.by} on device ${entry.device}, its number ${entry.seq}.`);
  say(`Id ${entry.id}`);
  for (const [index, version] of versions.entries()) {
    say('');
    say(
      `${paint.bold(`${version.did} in entry ${version.number}`)}, ${version.recordedAt}${version.reason === undefined ? '' : `: ${version.reason}`}${versions.length > 1 && version.inForce ? ' (in force)' : ''}`,
    );
    if (version.body === undefined) continue;
    const before = versions.slice(0, index).findLast(({ body }) => body !== undefined);
    say(
      table(
        [{ title: '' }, { title: 'Field' }, { title: 'Value' }],
        rowsOf(version, before, names).map(([field, value, changed]) => [changed ? '*' : ' ', field, value]),
      ),
    );
  }
  if (versions.length > 1) say('\n* differs from the version before.');
}

/** Fields and values; those that are not as in the version before are pointed out. */
function rowsOf(
  version: Version,
  before: Version | undefined,
  names: ReadonlyMap<string, string>,
): [string, string, boolean][] {
  const members = (of: Version | undefined): Record<string, JsonValue> => ({
    ...(of?.happenedAt === undefined ? {} : { happened: `${of.happenedAt.at} (${of.happenedAt.precision})` }),
    ...of?.body,
  });
  const here = members(version);
  const earlier = members(before);
  const fields = new Set([...Object.keys(here), ...(before ? Object.keys(earlier) : [])]);
  return [...fields].map((field) => {
    const changed = before !== undefined && JSON.stringify(here[field]) !== JSON.stringify(earlier[field]);
    return [field, shown(here[field], names), changed];
  });
}

/** What was entered is shown as it was written; everything else as it is kept. */
function shown(value: JsonValue | undefined, names: ReadonlyMap<string, string>): string {
  if (value === undefined) return '(taken out)';
  if (typeof value === 'string') return names.get(value) ?? value;
  if (typeof value !== 'object' || value === null) return String(value);
  if ('text' in value && typeof value.text === 'string') return value.text;
  return JSON.stringify(value);
}
