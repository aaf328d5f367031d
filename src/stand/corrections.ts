// Corrections are resolved before anything is folded: which entries are struck, and which version of the
// others is in force. A strike may be struck again, an amendment amended again; of two corrections of one
// version the later id applies. The result depends on the set of entries only, never on their arrival.
import type { Body } from '../events/index.ts';
import { amended, misfit, missing, rivalry, struck, struckOpening } from './correction-findings.ts';
import { compareText, eventOf, type Happening, instantOf, type LogEntry } from './entry.ts';
import type { Finding } from './findings.ts';
import { takenOutBy } from './imports.ts';

/** What became of an entry in the log. */
export type Standing = 'in force' | 'amended' | 'struck' | 'replaced' | 'waiting' | 'not readable here';

export type Resolution = {
  happenings: Happening[];
  findings: Finding[];
  /** Only entries that are not simply in force. */
  standings: Map<string, Standing>;
  /** Ids that corrections name and nobody has seen yet. */
  awaited: Set<string>;
  /** Whether the file that an entry was made from was taken out again. */
  isTakenOut: (entry: LogEntry) => boolean;
  /** The entry that opened the logbook; it cannot be struck. */
  opening: string | undefined;
};

type Named = { entry: LogEntry; target: string; reason: string };
type Amendment = Named & { is: 'amendment'; body: Body<'entry-amended'> };
type Correction = (Named & { is: 'strike' }) | Amendment;

type Corrections = {
  all: Map<string, Correction>;
  /** Corrections by the version they name; misfits are not among them. */
  byTarget: Map<string, Correction[]>;
  /**
   * Amendments of another kind of entry, or of a strike, and strikes of the opening: they don't apply and
   * rival nothing.
   */
  misfits: Set<string>;
  /** Corrections that refer to themselves by way of others; none of them applies. */
  circular: Set<string>;
  live: Set<string>;
};

/** Resolves all corrections among the known entries. Instants are by the device's own clock. */
export function resolveCorrections(known: ReadonlyMap<string, LogEntry>): Resolution {
  const { opening, corrections } = collect(known);
  const { byTarget, live } = corrections;
  const isTakenOut = takenOutBy(known, (id) => winnerOf(id, byTarget, live)?.is === 'strike');
  const resolution: Resolution = {
    isTakenOut,
    happenings: [],
    findings: [],
    standings: new Map(),
    awaited: new Set(),
    opening,
  };
  for (const entry of known.values()) {
    if (isCorrection(entry.type) && corrections.all.has(entry.id)) continue;
    if (isTakenOut(entry)) {
      resolution.standings.set(entry.id, 'struck');
      continue;
    }
    const happening = happeningOf(entry, corrections, resolution);
    if (happening) resolution.happenings.push(happening);
  }
  for (const correction of corrections.all.values()) judge(correction, known, corrections, resolution);
  return resolution;
}

/** Whether an entry of this type corrects another one. */
export function isCorrection(type: string): boolean {
  return type === 'entry-amended' || type === 'entry-struck';
}

/**
 * Order of entries that open the logbook; the first one opened it, and zone, units and CRS rest on it: the first
 * in the log, and among those that have no place in it the one with the smallest id.
 */
function compareOpenings(a: LogEntry, b: LogEntry): number {
  if (a.position === b.position) return compareText(a.id, b.id);
  return (a.position ?? Number.POSITIVE_INFINITY) - (b.position ?? Number.POSITIVE_INFINITY);
}

function collect(known: ReadonlyMap<string, LogEntry>): {
  opening: string | undefined;
  corrections: Corrections;
} {
  const all = new Map<string, Correction>();
  let first: LogEntry | undefined;
  for (const entry of known.values()) {
    if (isCorrection(entry.type)) {
      const correction = correctionOf(entry);
      if (correction !== undefined) all.set(entry.id, correction);
    } else if (entry.type === 'logbook-opened') {
      if (first === undefined || compareOpenings(entry, first) < 0) first = entry;
    }
  }
  const opening = first?.id;
  const byTarget = new Map<string, Correction[]>();
  const misfits = new Set<string>();
  for (const correction of all.values()) {
    const others = byTarget.get(correction.target);
    if (isMisfit(correction, known, all, opening)) misfits.add(correction.entry.id);
    else if (others) others.push(correction);
    else byTarget.set(correction.target, [correction]);
  }
  return { opening, corrections: { all, byTarget, misfits, ...settle(all, byTarget, misfits) } };
}

function isMisfit(
  correction: Correction,
  known: ReadonlyMap<string, LogEntry>,
  all: ReadonlyMap<string, Correction>,
  opening: string | undefined,
): boolean {
  // Without its opening a logbook could take nothing more, not even what would put this right.
  if (correction.is === 'strike') return correction.target === opening;
  const targeted = known.get(correction.target);
  if (targeted === undefined) return false;
  const version = all.get(targeted.id);
  if (version === undefined) return targeted.type !== correction.body.type;
  return version.is === 'strike' || version.body.type !== correction.body.type;
}

function correctionOf(entry: LogEntry): Correction | undefined {
  const event = eventOf(entry);
  if (event?.type === 'entry-struck') {
    return { is: 'strike', entry, target: event.body.strikes, reason: event.body.reason };
  }
  if (event?.type !== 'entry-amended') return undefined;
  return { is: 'amendment', entry, target: event.body.replaces, reason: event.body.reason, body: event.body };
}

/** Judges corrections from the last link of each chain to the first; what remains unjudged is circular. */
function settle(
  all: ReadonlyMap<string, Correction>,
  byTarget: ReadonlyMap<string, Correction[]>,
  misfits: ReadonlySet<string>,
): Pick<Corrections, 'live' | 'circular'> {
  const waitsFor = new Map([...all.keys()].map((id) => [id, byTarget.get(id)?.length ?? 0]));
  const ready = [...all.values()].filter(({ entry }) => waitsFor.get(entry.id) === 0);
  const live = new Set<string>();
  for (let next = ready.pop(); next !== undefined; next = ready.pop()) {
    if (winnerOf(next.entry.id, byTarget, live)?.is !== 'strike') live.add(next.entry.id);
    waitsFor.delete(next.entry.id);
    const target = misfits.has(next.entry.id) ? undefined : all.get(next.target);
    if (target === undefined) continue;
    const left = (waitsFor.get(target.entry.id) ?? 0) - 1;
    waitsFor.set(target.entry.id, left);
    if (left === 0) ready.push(target);
  }
  return { live, circular: new Set(waitsFor.keys()) };
}

function winnerOf(
  version: string,
  byTarget: ReadonlyMap<string, Correction[]>,
  live: ReadonlySet<string>,
): Correction | undefined {
  const corrections = byTarget.get(version);
  if (corrections === undefined) return undefined;
  let winner: Correction | undefined;
  for (const correction of corrections) {
    if (live.has(correction.entry.id) && (winner === undefined || winner.entry.id < correction.entry.id))
      winner = correction;
  }
  return winner;
}

function happeningOf(
  entry: LogEntry,
  corrections: Corrections,
  resolution: Resolution,
): Happening | undefined {
  const { byTarget, live } = corrections;
  let amendment: Amendment | undefined;
  for (
    let winner = winnerOf(entry.id, byTarget, live);
    winner;
    winner = winnerOf(winner.entry.id, byTarget, live)
  ) {
    if (winner.is === 'strike') {
      resolution.standings.set(entry.id, 'struck');
      resolution.findings.push(struck(entry, winner));
      return undefined;
    }
    // The opening is read as far as it can be read here: a newer program's version must not close the logbook.
    if (entry.id !== resolution.opening || eventOf(winner.body) !== undefined) amendment = winner;
  }
  const event = eventOf(amendment?.body ?? entry);
  if (event === undefined) {
    resolution.standings.set(entry.id, 'not readable here');
    return undefined;
  }
  if (amendment) {
    resolution.standings.set(entry.id, 'amended');
    resolution.findings.push(amended(entry, amendment));
  }
  const happenedAt = amendment?.body.happenedAt ?? entry.happenedAt;
  return {
    entry,
    version: amendment?.entry.id ?? entry.id,
    event,
    happenedAt,
    instant: instantOf(happenedAt),
  };
}

/** What a correction itself is worth, and what an auditor would ask about it. */
function judge(
  correction: Correction,
  known: ReadonlyMap<string, LogEntry>,
  corrections: Corrections,
  resolution: Resolution,
): void {
  const { entry, target } = correction;
  const { byTarget, circular, live, misfits } = corrections;
  if (!live.has(entry.id) && !circular.has(entry.id)) {
    resolution.standings.set(entry.id, 'struck');
    return;
  }
  if (!known.has(target)) {
    resolution.standings.set(entry.id, 'waiting');
    resolution.awaited.add(target);
    resolution.findings.push(missing(correction));
    return;
  }
  if (circular.has(entry.id) || misfits.has(entry.id)) {
    resolution.standings.set(entry.id, 'waiting');
    resolution.findings.push(
      target === resolution.opening && correction.is === 'strike'
        ? struckOpening(correction)
        : misfit(correction),
    );
    return;
  }
  const rivals = (byTarget.get(target) ?? []).filter((rival) => live.has(rival.entry.id));
  const winner = winnerOf(target, byTarget, live);
  if (winner !== correction) resolution.standings.set(entry.id, 'replaced');
  else if (rivals.length > 1) resolution.findings.push(rivalry(rivals, winner));
}
