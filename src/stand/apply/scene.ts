// What every apply function gets: the stand to write to, the body, and the happening behind it.
import type { Body, EventType } from '../../events/index.ts';
import type { PositionEntered } from '../../place/index.ts';
import type { Happening } from '../entry.ts';
import type { RaisedFinding } from '../findings.ts';
import type { Group, Hazard, Located, Patch, Sapling, Stand, Stem } from '../state.ts';

export type Apply<T extends EventType> = (stand: Stand, body: Body<T>, happening: Happening) => void;

/** @param earlier ids of the other entries behind the finding */
export function raise(
  stand: Stand,
  happening: Happening,
  finding: Pick<RaisedFinding, 'code' | 'about' | 'says' | 'remedy' | 'twice'>,
  earlier: readonly string[] = [],
): void {
  stand.findings.push({
    ...finding,
    entries: [...earlier, happening.entry.id],
    at: happening.happenedAt.at,
    recordedAt: happening.entry.recordedAt,
    instant: happening.instant,
  });
}

/** Copies the members that are there. Later entries say more, they don't unsay. */
export function take<T extends object>(into: T, from: { readonly [K in keyof T]?: T[K] | undefined }): void {
  for (const key of Object.keys(from) as (keyof T)[]) {
    const value = from[key];
    if (value !== undefined) into[key] = value as T[keyof T];
  }
}

export function located(entered: PositionEntered | undefined, happening: Happening): Located | undefined {
  if (entered === undefined || entered.how === 'unknown') return undefined;
  return { entered, when: happening.happenedAt.at, entry: happening.entry.id };
}

/** The stem of that id; one that nobody has brought in yet is made, so that nothing said of it is lost. */
export function stemOf(stand: Stand, id: string, happening: Happening): Stem {
  const known = stand.stems.get(id);
  if (known !== undefined) {
    addEntry(known, happening.entry.id);
    return known;
  }
  const stem = newStem(id, happening.entry.id);
  stand.stems.set(id, stem);
  return stem;
}

/** Most stems have two or three entries; a list that fits them takes a fourth of the memory of one that was pushed to. */
function addEntry(stem: Stem, entry: string): void {
  if (stem.entries.length < 8) stem.entries = stem.entries.concat(entry);
  else stem.entries.push(entry);
}

const none: readonly never[] = [];

function newStem(id: string, entry: string): Stem {
  return {
    id,
    entries: [entry],
    introduced: false,
    tag: undefined,
    taggedBy: undefined,
    tagLost: false,
    earlierTags: none,
    species: undefined,
    mark: undefined,
    markedBy: undefined,
    purpose: undefined,
    reason: undefined,
    group: undefined,
    block: undefined,
    dbh: undefined,
    earlierDbh: undefined,
    height: undefined,
    merchantableHeight: undefined,
    crownBase: undefined,
    crownRadius: undefined,
    lean: undefined,
    decaySigns: none,
    seams: none,
    rot: undefined,
    defects: undefined,
    vigor: undefined,
    product: undefined,
    grade: undefined,
    markAtEye: undefined,
    markOnStump: undefined,
    position: undefined,
    status: 'standing',
    statusBy: undefined,
    felling: undefined,
    decay: undefined,
    stump: undefined,
  };
}

export function groupOf(stand: Stand, id: string, happening: Happening): Group {
  let group = stand.groups.get(id);
  if (group === undefined) {
    group = {
      id,
      entries: [],
      introduced: false,
      label: `group ${id.slice(-6)}`,
      widened: [],
      opening: 'not cut yet',
      closings: [],
      measured: [],
      reopenings: [],
    };
    stand.groups.set(id, group);
  }
  group.entries.push(happening.entry.id);
  return group;
}

export function saplingOf(stand: Stand, id: string, happening: Happening): Sapling {
  return protectedOf(stand.saplings, id, happening);
}

export function patchOf(stand: Stand, id: string, happening: Happening): Patch {
  return protectedOf(stand.patches, id, happening);
}

function protectedOf<T extends Sapling | Patch>(all: Map<string, T>, id: string, happening: Happening): T {
  let found = all.get(id);
  if (found === undefined) {
    found = { id, entries: [], introduced: false, checks: [] } as unknown as T;
    all.set(id, found);
  }
  found.entries.push(happening.entry.id);
  return found;
}

export function hazardOf(stand: Stand, id: string, happening: Happening): Hazard {
  let hazard = stand.hazards.get(id);
  if (hazard === undefined) {
    hazard = { id, entries: [], introduced: false, what: 'other', notedAt: happening.happenedAt };
    stand.hazards.set(id, hazard);
    stand.openHazards.add(id);
  }
  hazard.entries.push(happening.entry.id);
  return hazard;
}
