// Entries in words, for lists and for what was saved last.
import { readBody } from '../../../../events/index.ts';
import { describe, type Folded, type LogEntry } from '../../../../stand/index.ts';
import type { Engine } from '../../engine/port.ts';

/**
 * What an entry says, in the version that is in force; of a struck one, what it said.
 * @param names of people, by the hash that their entries hold
 */
export function sentenceOf(folded: Folded, entry: LogEntry, names: ReadonlyMap<string, string>): string {
  const changed = folded.standings.get(entry.id) === 'amended';
  const happening = changed ? folded.happenings.find((one) => one.entry.id === entry.id) : undefined;
  const own = readBody(entry.type, entry.v, entry.body);
  const event = happening?.event ?? (own.ok ? own.event : undefined);
  return event === undefined ? entry.type : describe(event, folded.stand, names);
}

/** Names of people by their hash, as far as this phone has them. */
export function namesFor(engine: Engine, { stand }: Folded): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  for (const { name } of stand.people.values()) {
    const known = engine.sealedText(name);
    if (known !== undefined) names.set(name, known);
  }
  return names;
}
