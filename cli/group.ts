// Which group somebody means on the command line.
import { findThing, type Group, type Stand } from '../src/stand/index.ts';
import { exitCodes, Failure, problemSentence } from './terminal/index.ts';

/** The group of that label or id. */
export function findGroup(stand: Stand, text: string): Group {
  const found = findThing(stand, 'group', text, new Map());
  const group = found.ok ? stand.groups.get(found.value) : undefined;
  if (group) return group;
  const remedy = found.ok ? 'there is no such group in this logbook' : found.remedy;
  throw new Failure(exitCodes.badInput, problemSentence({ field: 'group', value: text, remedy }));
}
