// One entry in a sentence. A correction names the number of what it corrects.
import type { Event } from '../src/events/index.ts';
import { describe, type Folded } from '../src/stand/index.ts';

export function sayEvent(event: Event, folded: Folded, names?: ReadonlyMap<string, string>): string {
  return describe(event, folded.stand, names, (id) => folded.entries.get(id)?.position);
}
