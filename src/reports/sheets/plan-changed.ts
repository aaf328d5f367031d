// What a felling plan was computed with that is not usual: who decided so, in which entry, and whether it lets the plan do more.
import { type FellingPlan, windWords } from '../../felling/index.ts';
import type { System } from '../../measure/index.ts';
import type { Folded, Names } from '../../stand/index.ts';

/** How entries and people are told of; without it by nothing but that there is an entry, or somebody. */
export type Told = Readonly<{ entry: (id: string) => string; person: (id: string) => string }>;

export function toldBy({ stand, entries }: Folded, names: Names): Told {
  return {
    entry: (id) => {
      const number = entries.get(id)?.position;
      return number === undefined ? 'an entry without a number yet' : `entry ${number}`;
    },
    person: (id) => names.get(stand.people.get(id)?.name ?? '') ?? 'somebody',
  };
}

const untold: Told = { entry: () => 'an entry', person: () => 'who plans' };

export function changedRemarks(
  { changed, unused, wind }: FellingPlan,
  system: System,
  told = untold,
): string[] {
  return [
    ...changed.map(({ name, value, usual, looser, recorded }) => {
      const says = `${name} is ${value}, usually ${usual}${looser ? '; that is looser than usual' : ''}.`;
      return recorded === undefined
        ? `Assumption changed for this plan: ${says}`
        : `Recorded for plans of ${told.person(recorded.person)} (${told.entry(recorded.entry)}, "${recorded.reason}"): ${says} It does not hold where others fell by this plan.`;
    }),
    ...unused.map(({ entry, says }) => `${capital(told.entry(entry))}: ${says}`),
    wind === 0
      ? 'Computed for calm. Record the wind when it rises ("wind noted"): more of it ends the plan.'
      : `Computed for a mean wind of ${windWords(wind, system)}. More than that ends the plan.`,
  ];
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
