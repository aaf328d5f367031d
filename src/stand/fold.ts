// The fold: entries in the order they happened -> the stand, at any moment. Rebuilding is the definition;
// adding entries at the end is an optimisation that must give the same.

import { apply } from './apply/index.ts';
import { circleFindings } from './circle-findings.ts';
import { isCorrection, type Resolution, resolveCorrections, type Standing } from './corrections.ts';
import { deviceFindings } from './device-findings.ts';
import { callFindings } from './emergency.ts';
import { compareHappenings, eventOf, type Happening, instantOf, type LogEntry } from './entry.ts';
import { arrange, type Finding } from './findings.ts';
import { addTimeFindings, type ClockShift, clockFindings, clockShift } from './record-findings.ts';
import { missingThings, settleAll } from './settle.ts';
import { emptyStand, type Stand } from './state.ts';

export type FoldOptions = Readonly<{
  /** Only what happened up to this moment, in milliseconds since 1970. */
  until?: number;
}>;

/** The stand together with how it came about. */
export type Folded = Readonly<{
  stand: Stand;
  findings: readonly Finding[];
  /** Everything that was folded, in order of happening. */
  happenings: readonly Happening[];
  /** What became of entries that are not simply in force, by id. */
  standings: ReadonlyMap<string, Standing>;
  entries: ReadonlyMap<string, LogEntry>;
}>;

/** Folds a set of entries. The same set gives the same stand in whatever order it comes. */
export function fold(entries: Iterable<LogEntry>, options: FoldOptions = {}): Folded {
  const folding = startFolding(options);
  folding.add(entries);
  return folding.folded();
}

/**
 * Plays happenings back: after each one the stand as it was then. The stand is the same object all along, so
 * look at it before asking for the next.
 */
export function* playBack(
  happenings: readonly Happening[],
): Generator<{ happening: Happening; stand: Stand }> {
  const stand = emptyStand();
  for (const happening of happenings) {
    apply(stand, happening);
    yield { happening, stand };
  }
}

export type Folding = Readonly<{
  /** Takes in more entries; ids that are known already change nothing. */
  add: (entries: Iterable<LogEntry>) => void;
  folded: () => Folded;
}>;

/** A fold that goes on: entries that happened last and correct nothing are applied to the stand as it is. */
export function startFolding(options: FoldOptions = {}): Folding {
  const known = new Map<string, LogEntry>();
  let built = build(known, options);
  let stale = false;

  const add = (entries: Iterable<LogEntry>): void => {
    const fresh: LogEntry[] = [];
    for (const entry of entries) {
      if (known.has(entry.id)) continue;
      known.set(entry.id, entry);
      stale ||= options.until !== undefined || reachesBack(entry, built);
      if (!stale) fresh.push(entry);
    }
    if (fresh.length > 0 && !stale) stale = !extend(built, fresh);
  };
  const folded = (): Folded => {
    if (stale) built = build(known, options);
    stale = false;
    return finish(built, known);
  };
  return { add, folded };
}

type Built = {
  stand: Stand;
  happenings: Happening[];
  resolution: Resolution;
  times: Finding[];
  /** What the recorded clock offsets do to an instant; undefined without any. */
  shift: ClockShift | undefined;
};

function build(known: ReadonlyMap<string, LogEntry>, options: FoldOptions): Built {
  const resolution = resolveCorrections(known);
  const shift = clockShift(resolution.happenings);
  const shifted = allowedFor(resolution.happenings, shift);
  const happenings = options.until === undefined ? shifted : upTo(shifted, options.until);
  sortHappenings(happenings, resolution.opening);
  const built: Built = { stand: emptyStand(), happenings, resolution, times: [], shift };
  for (const happening of happenings) take(built, happening);
  return built;
}

function allowedFor(happenings: Happening[], shift: ClockShift | undefined): Happening[] {
  if (shift === undefined) return happenings;
  return happenings.map((happening) => ({
    ...happening,
    instant: shift(happening.entry, happening.instant),
  }));
}

/** What frames the log is no happening of the woods: it holds at every moment, also before it was written. */
const frame: ReadonlySet<string> = new Set(['logbook-opened', 'person-named']);

function upTo(happenings: Happening[], until: number): Happening[] {
  return happenings.filter(({ instant, event }) => instant <= until || frame.has(event.type));
}

/** The entry that opened the logbook comes before everything, whatever was copied from older paper. */
function sortHappenings(happenings: Happening[], opening: string | undefined): void {
  happenings.sort(compareHappenings);
  const index = happenings.findIndex(({ entry }) => entry.id === opening);
  if (index > 0) happenings.unshift(...happenings.splice(index, 1));
}

function take(built: Built, happening: Happening): void {
  apply(built.stand, happening);
  addTimeFindings(happening, built.times);
}

/** Applies fresh entries at the end; false when they reach back and the stand must be built again. */
function extend(built: Built, fresh: readonly LogEntry[]): boolean {
  const read = fresh.map(happeningOf).filter((happening) => happening !== undefined);
  if (read.length < fresh.length) return false;
  const next = allowedFor(read, built.shift);
  next.sort(compareHappenings);
  const last = built.happenings.at(-1);
  const first = next[0];
  if (last && first && compareHappenings(last, first) > 0) return false;
  for (const happening of next) {
    built.happenings.push(happening);
    take(built, happening);
  }
  return true;
}

/** Whether an entry changes what others mean, comes before all others, or is awaited by a correction. */
function reachesBack(entry: LogEntry, built: Built): boolean {
  const { id, type } = entry;
  const { awaited, isTakenOut } = built.resolution;
  return isCorrection(type) || changesOthers.has(type) || awaited.has(id) || isTakenOut(entry);
}

const changesOthers: ReadonlySet<string> = new Set(['clock-offset-noted', 'logbook-opened']);

function happeningOf(entry: LogEntry): Happening | undefined {
  const event = eventOf(entry);
  if (event === undefined) return undefined;
  return {
    entry,
    version: entry.id,
    event,
    happenedAt: entry.happenedAt,
    instant: instantOf(entry.happenedAt),
  };
}

function finish(built: Built, known: ReadonlyMap<string, LogEntry>): Folded {
  const { stand, happenings, resolution, times } = built;
  const findings = arrange([
    ...settleAll(stand, known),
    ...missingThings(stand),
    ...circleFindings(stand),
    ...callFindings(stand, happenings.at(-1)?.instant ?? Number.NEGATIVE_INFINITY),
    ...resolution.findings,
    ...times,
    ...clockFindings(known),
    ...deviceFindings(stand, known.values()),
  ]);
  return { stand, findings, happenings, standings: resolution.standings, entries: known };
}
