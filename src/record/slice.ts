// A slice of the logbook: the entries that matter for one decision, folded by the same fold as everything.
import type { JsonObject, JsonValue } from '../events/index.ts';
import { readEnvelope } from '../log/entry/index.ts';
import type { Log, Stored } from '../log/store/index.ts';
import { type Folded, fold, type LogEntry } from '../stand/index.ts';
import type { Desk } from './desk.ts';
import { frameKey, groupKey, idKey, labelKey } from './keys.ts';

export type Wanted = Readonly<{
  /** Tags and labels as somebody typed them. */
  labels?: readonly string[];
  /** Ids of things or entries. */
  ids?: readonly string[];
}>;

/** Members of a body that say which things an entry is about. */
const subjects = ['stem', 'sapling', 'patch', 'hazard'] as const;

/**
 * Loads the frame of the logbook, everything that carries the wanted labels or ids, all that was ever
 * recorded about those things, and the corrections of all of it.
 */
export async function loadSlice(desk: Desk, wanted: Wanted): Promise<Folded> {
  const slice = newSlice(desk);
  const labels = wanted.labels ?? [];
  await slice.load([frameKey, ...(wanted.ids ?? []).map(idKey)]);
  const things = await slice.load(labels.map(labelKey));
  const corrected = await targetsOf(slice, slice.named(wanted.ids ?? []));
  await loadSubjects(slice, [...things, ...corrected]);
  return slice.fold();
}

/**
 * Loads all about the things that these entries are about, then all about those that come in with them: a hazard
 * on a stem, and who cleared it. Groups lead no further than to their own entries.
 */
async function loadSubjects(slice: Slice, entries: readonly LogEntry[]): Promise<void> {
  const asked = new Set<string>();
  for (let next = entries; next.length > 0; ) {
    const ids = subjectIds(next).filter((id) => !asked.has(id));
    for (const id of ids) asked.add(id);
    next = await slice.load(ids.map(idKey));
  }
}

/** The entries, and for corrections among them what they correct, back to the entry itself. */
async function targetsOf(slice: Slice, entries: readonly LogEntry[]): Promise<LogEntry[]> {
  const found = new Map(entries.map((entry) => [entry.id, entry]));
  for (let next = entries; next.length > 0; ) {
    const ids = next.flatMap(({ body }) =>
      [body.replaces, body.strikes].filter((id) => typeof id === 'string' && !found.has(id)),
    ) as string[];
    await slice.load(ids.map(idKey));
    next = slice.named(ids);
    for (const entry of next) found.set(entry.id, entry);
  }
  return [...found.values()];
}

/** The slice of a group with everything in it: its stems, saplings, patches, hazards. */
export async function loadGroup(desk: Desk, group: string): Promise<Folded> {
  const slice = newSlice(desk);
  await slice.load([frameKey, groupKey(group)]);
  await loadSubjects(slice, await slice.load([idKey(group)]));
  return slice.fold();
}

/** All entries of the logbook, or the first `size` of them; `progress` is told how many have been read. */
export async function loadAll(
  log: Pick<Log, 'read'>,
  size?: number,
  progress?: (read: number) => void,
): Promise<LogEntry[]> {
  const entries: LogEntry[] = [];
  const range = size === undefined ? {} : { to: size };
  for await (const page of log.read(range)) {
    for (const stored of page) entries.push(toEntry(stored));
    progress?.(entries.length);
  }
  return entries;
}

export function toEntry(stored: Stored): LogEntry {
  // The object is fresh, so it is added to; copying it would take as long as reading it.
  return Object.assign(readEnvelope(stored.bytes), {
    position: stored.position,
    receivedAt: stored.receivedAt,
  });
}

type Slice = ReturnType<typeof newSlice>;

function newSlice(desk: Desk) {
  const entries = new Map<string, LogEntry>();
  /** Loads by keys, then the corrections of what came and the groups it is in, and theirs. Gives what was not there before. */
  const load = async (keys: readonly string[]): Promise<LogEntry[]> => {
    const fresh: LogEntry[] = [];
    for (let next = [...keys]; next.length > 0; ) {
      const found = (await desk.lookup.entries(next)).filter(({ id }) => !entries.has(id)).map(toEntry);
      for (const entry of found) entries.set(entry.id, entry);
      fresh.push(...found);
      next = found.flatMap((entry) => [idKey(entry.id), ...groupsOf(entry).map(groupKey)]);
    }
    return fresh;
  };
  const named = (ids: readonly string[]) => ids.flatMap((id) => entries.get(id) ?? []);
  return { load, named, fold: () => fold(entries.values()) };
}

function subjectIds(entries: readonly LogEntry[]): string[] {
  // The new version in an amendment is about something too.
  return [...new Set(entries.flatMap(({ body }) => [...subjectsOf(body), ...subjectsOf(body.body)]))];
}

/** What a body is about, and the stem that its position was measured from. */
function subjectsOf(body: JsonValue | undefined): string[] {
  if (!isObject(body)) return [];
  const { position } = body;
  const from = isObject(position) ? position.from : undefined;
  const ids = [...subjects.map((name) => body[name]), isObject(from) ? from.stem : undefined];
  return ids.filter((id) => typeof id === 'string');
}

/** The groups that an entry, or the new version in an amendment, puts something into. */
function groupsOf({ body }: LogEntry): string[] {
  const inner = isObject(body.body) ? body.body.group : undefined;
  return [body.group, inner].filter((group) => typeof group === 'string');
}

function isObject(value: JsonValue | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Which moment, and with which knowledge. */
export type Moment = Readonly<{
  /** Only what happened up to then, milliseconds since 1970. */
  until?: number;
  /** Only what the log held at this size. */
  size?: number;
}>;

/** The stand at any moment, as known at any size of the log. */
export async function readStand(
  log: Pick<Log, 'read'>,
  moment: Moment = {},
  progress?: (read: number) => void,
): Promise<Folded> {
  const entries = await loadAll(log, moment.size, progress);
  return fold(entries, moment.until === undefined ? {} : { until: moment.until });
}
