// Which things belong to a group. Kept beside the things, so that closing an opening need not look at every
// stem of the logbook.
import type { Group, Stand } from './state.ts';

type Thing = { id: string; group?: string | undefined };

/** Puts a thing into a group, and out of the one it was in; no group changes nothing. */
export function join(stand: Stand, thing: Thing, group: string | undefined): void {
  if (group === undefined || thing.group === group) return;
  if (thing.group !== undefined) stand.members.get(thing.group)?.delete(thing.id);
  thing.group = group;
  const members = stand.members.get(group);
  if (members) members.add(thing.id);
  else stand.members.set(group, new Set([thing.id]));
}

/** The stems, saplings, patches … of a group, in the order in which they joined it. */
export function membersOf<T extends Thing>(
  stand: Stand,
  things: ReadonlyMap<string, T>,
  group: Group['id'],
): T[] {
  const members: T[] = [];
  for (const id of stand.members.get(group) ?? []) {
    const thing = things.get(id);
    if (thing?.group === group) members.push(thing);
  }
  return members;
}
