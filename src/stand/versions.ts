// One entry through its corrections: as first recorded, each amendment, each strike. Corrections may have
// arrived before what they correct, so they are followed by what they name and not by their place in the log.
import { compareText, type LogEntry } from './entry.ts';
import type { Folded } from './fold.ts';

export type EntryVersion = Readonly<{
  entry: LogEntry;
  /** What this entry did: recorded something, amended a version, or struck one. */
  did: 'recorded' | 'amended' | 'struck';
  /** Id of the version that it amended or struck; absent for what was first recorded. */
  of?: string;
  /** Whether the stand holds this version now. Of a struck entry none is. */
  inForce: boolean;
}>;

/**
 * All versions and corrections of an entry, in the order in which they were recorded (ids of version 7
 * rise with time); one alone when nothing was put right.
 * @param entryId the entry as first recorded, or any correction of it
 */
export function versionsOf(entryId: string, { entries, happenings }: Folded): EntryVersion[] {
  const root = rootOf(entryId, entries);
  const first = entries.get(root);
  if (first === undefined) return [];
  const current = happenings.find((happening) => happening.entry.id === root)?.version;
  const corrections = correctionsByTarget(entries);
  const versions: EntryVersion[] = [];
  const passed = new Set([root]);
  const follow = (target: string): void => {
    for (const { id } of corrections.get(target) ?? []) if (!passed.has(id)) passed.add(id);
  };
  // A set is walked while it grows: each correction brings in those that name it.
  for (const id of passed) follow(id);
  for (const id of passed) {
    const entry = entries.get(id);
    if (entry !== undefined) versions.push(versionOf(entry, current));
  }
  const [recorded, ...later] = versions;
  later.sort((a, b) => compareText(a.entry.id, b.entry.id));
  return recorded === undefined ? later : [recorded, ...later];
}

function versionOf(entry: LogEntry, current: string | undefined): EntryVersion {
  const inForce = entry.id === current;
  const of = targetOf(entry);
  if (of === undefined) return { entry, did: 'recorded', inForce };
  return { entry, did: entry.type === 'entry-struck' ? 'struck' : 'amended', of, inForce };
}

/** The entry or correction that a correction names. */
function targetOf({ type, body }: LogEntry): string | undefined {
  const target =
    type === 'entry-amended' ? body.replaces : type === 'entry-struck' ? body.strikes : undefined;
  return typeof target === 'string' ? target : undefined;
}

/** From a correction back to what was first recorded; where that is not here yet, to the first that is. */
function rootOf(entryId: string, entries: Folded['entries']): string {
  const passed = new Set<string>();
  for (let id = entryId; ; ) {
    passed.add(id);
    const entry = entries.get(id);
    const target = entry === undefined ? undefined : targetOf(entry);
    if (target === undefined || passed.has(target) || !entries.has(target)) return id;
    id = target;
  }
}

function correctionsByTarget(entries: Folded['entries']): Map<string, LogEntry[]> {
  const found = new Map<string, LogEntry[]>();
  for (const entry of entries.values()) {
    const target = targetOf(entry);
    if (target === undefined) continue;
    const others = found.get(target);
    if (others) others.push(entry);
    else found.set(target, [entry]);
  }
  return found;
}
