// One entry with everything it says, and what later entries made of it.
import type { JsonValue } from '../src/events/index.ts';
import { type Folded, type LogEntry, words } from '../src/stand/index.ts';
import { paint, say, table } from './terminal/index.ts';

/** The entry as first recorded, then each amendment of it in the order they came, then what struck it. */
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
export function versionsOf(entry: LogEntry, folded: Folded): Version[] {
  const current = folded.happenings.find((happening) => happening.entry.id === entry.id)?.version;
  const family = new Set([entry.id]);
  const versions: Version[] = [versionOf(entry, 'recorded', current)];
  for (const later of folded.entries.values()) {
    const target = later.type === 'entry-amended' ? later.body.replaces : undefined;
    const struck = later.type === 'entry-struck' ? later.body.strikes : undefined;
    if (typeof target === 'string' && family.has(target)) versions.push(versionOf(later, 'amended', current));
    else if (typeof struck === 'string' && family.has(struck))
      versions.push(versionOf(later, 'struck', current));
    else continue;
    family.add(later.id);
  }
  return versions;
}

function versionOf(entry: LogEntry, did: Version['did'], current: string | undefined): Version {
  const base = {
    number: entry.position ?? 0,
    recordedAt: entry.recordedAt,
    did,
    inForce: entry.id === current,
  };
  const { body, reason, happenedAt } = entry.body;
  const why = did !== 'recorded' && typeof reason === 'string' ? { reason } : {};
  if (did === 'recorded') return { ...base, body: entry.body, happenedAt: entry.happenedAt };
  if (did === 'struck') return { ...base, ...why };
  return {
    ...base,
    ...why,
    body: body as LogEntry['body'],
    happenedAt: happenedAt as LogEntry['happenedAt'],
  };
}

type Line = Readonly<{ number: number; kind: string; standing: string; says: string }>;

export function printEntry(
  { number, kind, standing, says }: Line,
  entry: LogEntry,
  versions: readonly Version[],
  names: ReadonlyMap<string, string>,
): void {
  say(`${paint.bold(`Entry ${number}: ${words(kind)}`)} (${standing})`);
  say(says);
  say(`Recorded ${entry.recordedAt} by ${entry.by} on device ${entry.device}, its number ${entry.seq}.`);
  say(`Id ${entry.id}`);
  for (const version of versions) {
    say('');
    say(
      `${paint.bold(`${version.did} in entry ${version.number}`)}, ${version.recordedAt}${version.reason === undefined ? '' : `: ${version.reason}`}${versions.length > 1 && version.inForce ? ' (in force)' : ''}`,
    );
    if (version.body === undefined) continue;
    const before = versions
      .filter(({ number: at }) => at < version.number)
      .findLast(({ body }) => body !== undefined);
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
