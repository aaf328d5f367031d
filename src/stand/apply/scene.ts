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
  const stem = stand.stems.get(id) ?? newStem(stand, id);
  stem.entries.push(happening.entry.id);
  return stem;
}

function newStem(stand: Stand, id: string): Stem {
  const stem: Stem = {
    id,
    entries: [],
    introduced: false,
    tagLost: false,
    earlierTags: [],
    decaySigns: [],
    seams: [],
    status: 'standing',
  };
  stand.stems.set(id, stem);
  return stem;
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
