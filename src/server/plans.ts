// Felling plans as they are asked for. One that was made is kept while the log stays as it is, so that page, map and worksheets
// show the same plan, and a large group is not searched for again at every look.
import { FellingError, type FellingPlan, type PlanTyped, planAsked } from '../felling/index.ts';
import type { Moment } from '../record/index.ts';
import type { Group } from '../stand/index.ts';
import type { Look } from './reading.ts';

export type PlanWanted = Readonly<{
  look: Look;
  moment: Moment;
  group: Group;
  typed: PlanTyped;
}>;

export type Plans = Readonly<{
  /**
   * The plan as of today.
   * @throws FellingError
   */
  today: (wanted: PlanWanted) => FellingPlan;
  /** The plan that was made at an earlier time, made again from what is recorded now. */
  again: (wanted: PlanWanted, when: string) => FellingPlan;
}>;

/** Plans that are kept at once. */
const most = 12;

/** @param now milliseconds since 1970 */
export function keptPlans(now: () => number): Plans {
  const kept = new Map<string, FellingPlan | FellingError>();
  const made = ({ look, moment, group, typed }: PlanWanted, when: string, key: string): FellingPlan => {
    const name = JSON.stringify([look.head, moment, group.id, typed, key]);
    const known = kept.get(name);
    if (known instanceof FellingError) throw known;
    if (known !== undefined) return known;
    try {
      const plan = planAsked(look.folded.stand, group, typed, when);
      keep(name, plan);
      return plan;
    } catch (error) {
      if (error instanceof FellingError) keep(name, error);
      throw error;
    }
  };
  const keep = (name: string, plan: FellingPlan | FellingError): void => {
    kept.set(name, plan);
    const [oldest] = kept.keys();
    if (kept.size > most && oldest !== undefined) kept.delete(oldest);
  };
  return {
    today: (wanted) => {
      const when = new Date(now()).toISOString();
      // The declination is of a day.
      return made(wanted, when, when.slice(0, 10));
    },
    again: (wanted, when) => {
      const today = JSON.stringify([
        wanted.look.head,
        wanted.moment,
        wanted.group.id,
        wanted.typed,
        when.slice(0, 10),
      ]);
      const known = kept.get(today);
      return known !== undefined && !(known instanceof FellingError) && known.when === when
        ? known
        : made(wanted, when, when);
    },
  };
}
