// What a plan costs if a sapling can be lost only once. The order adds losses over falls, so that what a fall costs does not
// depend on the falls before it; a sapling that two stems may strike is counted twice there, and once here.
import { cells, seen } from '../model/around.ts';
import type { FellingModel } from '../model/build.ts';
import { contact, touch } from '../model/crown.ts';
import type { Risk } from '../model/things.ts';
import type { PlannedLay } from './crossings.ts';

/** One thing that can be lost, with its loss added up over the falls and counted once. In saplings' worth. */
export type LostOnce = Readonly<{
  what: Risk['what'];
  id: string;
  label: string;
  added: number;
  once: number;
  /** How many falls put more than one in a hundred of it at risk. */
  falls: number;
}>;

export type OnceOnly = Readonly<{
  /** Saplings, patches and leave trees: as added up, and as they can be lost but once. */
  added: number;
  once: number;
  /** added ÷ once; 1 where nothing is at risk. */
  ratio: number;
  /** By what the counting twice makes, the largest first; those under 0.005 saplings' worth apart are left out. */
  things: readonly LostOnce[];
}>;

const ALIVE: ReadonlySet<Risk['what']> = new Set(['sapling', 'patch', 'leave tree']);
const LEAST = 0.005;

/**
 * Of each thing there is left the product over the falls of what each leaves: 1 − Π(1 − share lost). Falls know nothing of one
 * another, so that this is exact for saplings and leave trees; of a patch it is worked out for its squares.
 *
 * @param risks of each fall, in the same order as the falls
 */
export function onceOnly(
  model: FellingModel,
  falls: readonly PlannedLay[],
  risks: readonly (readonly Risk[])[],
): OnceOnly {
  const worth = worths(model);
  const things = new Map<
    string,
    { what: Risk['what']; label: string; shares: Map<number, number>; added: number }
  >();
  risks.forEach((of, fall) => {
    for (const { what, id, label, loss } of of) {
      if (!ALIVE.has(what) || loss === 0) continue;
      const known = things.get(id) ?? { what, label, shares: new Map(), added: 0 };
      known.added += loss;
      known.shares.set(fall, (known.shares.get(fall) ?? 0) + loss / (worth.get(id) ?? 1));
      things.set(id, known);
    }
  });
  const all = [...things].map(([id, { what, label, shares, added }]): LostOnce => {
    const value = worth.get(id) ?? 1;
    const lost =
      what === 'patch'
        ? patchOnce(model, id, falls)
        : 1 - [...shares.values()].reduce((left, one) => left * (1 - one), 1);
    const several = [...shares.values()].filter((share) => share > 0.01).length;
    return { what, id, label, added, once: value * lost, falls: several };
  });
  const sum = (of: (one: LostOnce) => number) => all.reduce((total, one) => total + of(one), 0);
  const [added, once] = [sum((one) => one.added), sum((one) => one.once)];
  return {
    added,
    once,
    ratio: once > 0 ? added / once : 1,
    things: all
      .filter((one) => one.added - one.once >= LEAST)
      .sort((a, b) => b.added - b.once - (a.added - a.once) || (a.id < b.id ? -1 : 1)),
  };
}

/** What each thing counts whole. */
function worths({ inputs, assumed }: FellingModel): ReadonlyMap<string, number> {
  const { saplings = [], patches = [], leaveTrees = [] } = inputs;
  return new Map([
    ...saplings.map(({ id, value = 1 }) => [id, value] as const),
    ...patches.map(({ id, value }) => [id, value] as const),
    ...leaveTrees.map(({ id, value = assumed.leaveTree }) => [id, value] as const),
  ]);
}

/** The share of a patch that is lost, each square of it but once. */
function patchOnce({ inputs, assumed }: FellingModel, id: string, falls: readonly PlannedLay[]): number {
  const ring = inputs.patches?.find((patch) => patch.id === id)?.ring ?? [];
  const squares = cells(ring, assumed.patchCell);
  const left = squares.map((square) =>
    falls.reduce((rest, fall) => {
      const place = seen(fall.stump, square);
      const { bole, crownOnly } = touch(fall, contact(fall.body, { ...place, radius: 0 }));
      return rest * (1 - assumed.underBole * bole - assumed.underCrown * crownOnly);
    }, 1),
  );
  return squares.length === 0 ? 0 : 1 - left.reduce((sum, one) => sum + one, 0) / squares.length;
}
