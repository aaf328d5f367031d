// Which entries a plan did not know. What was recorded on the same device is told by its number there; what came from elsewhere
// by its place in the log against the size that the plan was computed from; and where there is no place yet, by its time.
import { type Folded, instantOf, type Stand } from '../../stand/index.ts';

export type Adopted = NonNullable<ReturnType<Stand['groups']['get']>>['plan'] & object;

/** Whether a plan was adopted without knowing of an entry; false for one that is not here. */
export type IsLater = (entry: string) => boolean;

export function laterThan(plan: Adopted, { entries }: Pick<Folded, 'entries'>): IsLater {
  const own = entries.get(plan.entry);
  const since = instantOf(plan.at);
  return (id) => {
    const entry = entries.get(id);
    if (entry === undefined || id === plan.entry) return false;
    if (own !== undefined && entry.device === own.device) return entry.seq > own.seq;
    return entry.position === undefined
      ? instantOf(entry.happenedAt) > since
      : entry.position >= plan.body.size;
  };
}
