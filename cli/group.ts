// Which group or block somebody means on the command line.
import { type Block, findThing, type Group, type Stand } from '../src/stand/index.ts';
import { exitCodes, Failure, problemSentence } from './terminal/index.ts';

/** The group of that label or id. */
export function findGroup(stand: Stand, text: string): Group {
  return stand.groups.get(idOf(stand, 'group', text)) ?? unknown('group', text);
}

/** The block of that name or id. */
export function findBlock(stand: Stand, text: string): Block {
  return stand.blocks.get(idOf(stand, 'block', text)) ?? unknown('block', text);
}

function idOf(stand: Stand, noun: 'group' | 'block', text: string): string {
  const found = findThing(stand, noun, text, new Map());
  return found.ok ? found.value : unknown(noun, text, found.remedy);
}

function unknown(noun: string, text: string, remedy = `there is no such ${noun} in this logbook`): never {
  throw new Failure(exitCodes.badInput, problemSentence({ field: noun, value: text, remedy }));
}
