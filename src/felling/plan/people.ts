// Where people work or stay while a group is felled, as somebody says it when a plan is asked for.
import { readPosition } from '../../events/index.ts';
import { isUnresolved, type LonLat } from '../../place/index.ts';
import { findThing, locate, type Stand } from '../../stand/index.ts';
import { FellingError } from '../error.ts';

/**
 * Reads "landing at 135 mag, 400 ft from stake A; 35.1, -81.2".
 * @throws FellingError for a place that cannot be read or told: people whom the plan does not see would be worse than no plan
 */
export function peopleAt(stand: Stand, typed: string | undefined, when: string) {
  const parts = (typed ?? '').split(';').map((part) => part.trim());
  return parts.filter((part) => part !== '').map((part) => personAt(stand, part, when));
}

function personAt(stand: Stand, part: string, when: string): Readonly<{ label: string; at: LonLat }> {
  const [, name, written = part] = /^(.+?)\s+at\s+(.+)$/i.exec(part) ?? [];
  const refused = (remedy: string) =>
    new FellingError(
      'people',
      part,
      `It is not known where ${name ?? 'these people'} would be, so nothing is planned.`,
      `${remedy.replace(/\.$/, '')}.`,
    );
  const units = stand.logbook?.body.units === 'metric' ? 'metric' : 'us';
  const read = readPosition(written, units, (noun, text) => findThing(stand, noun, text, new Map()));
  if (!read.ok) throw refused(read.remedy);
  const place = locate(stand).resolve({ entered: read.value, when, entry: '' });
  if (isUnresolved(place)) throw refused(place.why);
  return { label: name ?? 'where people are', at: place.at };
}
