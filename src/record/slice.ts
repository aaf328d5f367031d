// A slice of the logbook: the entries that matter for one decision, folded by the same fold as everything.
import { readEnvelope } from '../log/entry/index.ts';
import type { Log, Stored } from '../log/store/index.ts';
import { type Folded, fold, type LogEntry } from '../stand/index.ts';
import type { Desk } from './desk.ts';
import { frameKey, idKey, labelKey } from './keys.ts';

export type Wanted = Readonly<{
  /** Tags and labels as somebody typed them. */
  labels?: readonly string[];
  /** Ids of things or entries. */
  ids?: readonly string[];
}>;

/** Members of a body that say which things an entry is about. */
const subjects = ['stem', 'sapling', 'patch', 'hazard', 'group'] as const;

/**
 * Loads the frame of the logbook, everything that carries the wanted labels or ids, all that was ever
 * recorded about those things, and the corrections of all of it.
 */
export async function loadSlice(desk: Desk, wanted: Wanted): Promise<Folded> {
  const slice = newSlice(desk);
  const labels = wanted.labels ?? [];
  await slice.load([frameKey, ...(wanted.ids ?? []).map(idKey)]);
  const things = await slice.load(labels.map(labelKey));
  await slice.load(subjectIds([...things, ...slice.named(wanted.ids ?? [])]).map(idKey));
  return slice.fold();
}

/** The slice of a group with everything in it: its stems, saplings, patches, hazards. */
export async function loadGroup(desk: Desk, group: string): Promise<Folded> {
  const slice = newSlice(desk);
  await slice.load([frameKey]);
  const members = await slice.load([idKey(group)]);
  await slice.load(
    subjectIds(members)
      .filter((id) => id !== group)
      .map(idKey),
  );
  return slice.fold();
}

/** All entries of the logbook, or the first `size` of them. */
export async function loadAll(log: Pick<Log, 'read'>, size?: number): Promise<LogEntry[]> {
  const entries: LogEntry[] = [];
  const range = size === undefined ? {} : { to: size };
  for await (const page of log.read(range)) for (const stored of page) entries.push(toEntry(stored));
  return entries;
}

export function toEntry(stored: Stored): LogEntry {
  return { ...readEnvelope(stored.bytes), position: stored.position, receivedAt: stored.receivedAt };
}

function newSlice(desk: Desk) {
  const entries = new Map<string, LogEntry>();
  /** Loads by keys, then the corrections of what came, and theirs. Gives what was not there before. */
  const load = async (keys: readonly string[]): Promise<LogEntry[]> => {
    const fresh: LogEntry[] = [];
    for (let next = [...keys]; next.length > 0; ) {
      const found = (await desk.lookup.entries(next)).filter(({ id }) => !entries.has(id)).map(toEntry);
      for (const entry of found) entries.set(entry.id, entry);
      fresh.push(...found);
      next = found.map(({ id }) => idKey(id));
    }
    return fresh;
  };
  const named = (ids: readonly string[]) => ids.flatMap((id) => entries.get(id) ?? []);
  return { load, named, fold: () => fold(entries.values()) };
}

function subjectIds(entries: readonly LogEntry[]): string[] {
  const ids = new Set<string>();
  for (const { body } of entries) {
    for (const name of subjects) {
      const id = body[name];
      if (typeof id === 'string') ids.add(id);
    }
  }
  return [...ids];
}

/** Which moment, and with which knowledge. */
export type Moment = Readonly<{
  /** Only what happened up to then, milliseconds since 1970. */
  until?: number;
  /** Only what the log held at this size. */
  size?: number;
}>;

/** The stand at any moment, as known at any size of the log. */
export async function readStand(log: Pick<Log, 'read'>, moment: Moment = {}): Promise<Folded> {
  const entries = await loadAll(log, moment.size);
  return fold(entries, moment.until === undefined ? {} : { until: moment.until });
}
