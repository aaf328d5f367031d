// Every order and every aim, one after another: what the search is compared with. Written from the definition alone and
// with nothing of the search in it.
import type { OrderProblem } from '../../../src/felling/index.ts';

type Leaf = Readonly<{ hangUps: number; loss: number }>;
export type Brute = Readonly<{ felled: number; hangUps: number; loss: number }>;

/** Chance of a hang-up by its definition: over segments weight × (1 − always × product over holders that stand). */
export function chanceOf(problem: OrderProblem, stem: number, choice: number, standing: Set<number>): number {
  return (problem.stems[stem]?.choices[choice]?.segments ?? []).reduce((sum, { weight, always, holds }) => {
    const past = holds
      .filter((one) => standing.has(one.stem))
      .reduce((product, { survival }) => product * survival, always);
    return sum + weight * (1 - past);
  }, 0);
}

/** The most stems that can be felled within the limit; the least sum of chances for so many; the least loss within the tolerance. */
export function brute(problem: OrderProblem): Brute {
  const leaves: (Leaf & { felled: number })[] = [];
  let most = 0;
  const from = (standing: Set<number>, felled: number, hangUps: number, loss: number): void => {
    if (felled >= most) {
      most = felled;
      leaves.push({ felled, hangUps, loss });
    }
    for (const stem of [...standing].filter((one) => mayFall(problem, one, standing))) {
      standing.delete(stem);
      problem.stems[stem]?.choices.forEach((choice, number) => {
        const settled = problem.fixed?.find((one) => one.stem === stem)?.choice;
        const chance = chanceOf(problem, stem, number, standing);
        if (chance > problem.limit || (settled !== undefined && settled !== number)) return;
        from(standing, felled + 1, hangUps + chance, loss + choice.loss);
      });
      standing.add(stem);
    }
  };
  from(new Set(problem.stems.keys()), 0, 0, 0);
  const full = leaves.filter(({ felled }) => felled === most);
  const hangUps = full.reduce((least, leaf) => Math.min(least, leaf.hangUps), Number.POSITIVE_INFINITY);
  const loss = full
    .filter((leaf) => leaf.hangUps <= hangUps + problem.tolerance + 1e-10)
    .reduce((least, leaf) => Math.min(least, leaf.loss), Number.POSITIVE_INFINITY);
  return { felled: most, hangUps, loss };
}

function mayFall({ stems, before, last, fixed }: OrderProblem, stem: number, standing: Set<number>): boolean {
  const place = stems.length - standing.size;
  const settled = fixed?.find((one) => one.stem === stem)?.place;
  const owner = fixed?.find((one) => one.place === place)?.stem;
  if ((settled !== undefined && settled !== place) || (owner !== undefined && owner !== stem)) return false;
  if (before.some(([earlier, later]) => later === stem && standing.has(earlier))) return false;
  // Once a bumper tree is down, nothing but bumper trees follows.
  return last.includes(stem) || last.every((bumper) => standing.has(bumper));
}
