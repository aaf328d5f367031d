// One entry in a sentence. A correction names the number of what it corrects.
import type { Event } from '../src/events/index.ts';
import { describe, type Folded } from '../src/stand/index.ts';

export function sayEvent(event: Event, folded: Folded, names?: ReadonlyMap<string, string>): string {
  return describe(event, folded.stand, names).replace(/^an entry/, targetOf(event, folded));
}

/** The number of the entry that a correction names. */
function targetOf(event: Event, folded: Folded): string {
  const target =
    event.type === 'entry-amended'
      ? event.body.replaces
      : event.type === 'entry-struck'
        ? event.body.strikes
        : '';
  const position = folded.entries.get(target)?.position;
  return position === undefined ? 'an entry that is not here yet' : `entry ${position}`;
}
