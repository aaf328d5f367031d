// Who did what is recorded: the person named, else the one at the desk, else the only one there is. Where
// that does not settle it, the people of the logbook are the choices; nobody is guessed.
import type { TypingProblem } from '../events/index.ts';
import { findThing, type Stand, shortId } from '../stand/index.ts';
import type { Desk } from './desk.ts';

/** @param by name or id as typed; undefined when nothing was said */
export function whoDidIt(
  desk: Pick<Desk, 'person'>,
  by: string | undefined,
  stand: Stand,
  names: ReadonlyMap<string, string>,
): { ok: true; value: string } | { ok: false; problem: TypingProblem } {
  const only = stand.people.size === 1 ? [...stand.people.keys()][0] : undefined;
  const person = desk.person ?? only;
  if (by === undefined && person !== undefined) return { ok: true, value: person };
  const found = by === undefined ? undefined : findThing(stand, 'person', by, names);
  if (found?.ok) return found;
  const choices = [...stand.people.values()].map(({ id, name }) => {
    const called = names.get(name);
    return called === undefined
      ? { label: 'name erased', text: shortId(id) }
      : { label: called, text: called };
  });
  const remedy = found?.remedy ?? 'say who did it: somebody who is named in this logbook';
  return { ok: false, problem: { field: 'by', value: by ?? '', remedy, choices } };
}
