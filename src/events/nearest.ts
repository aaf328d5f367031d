// The nearest word to a mistyped one, to be suggested and never run.
import { distance } from 'fastest-levenshtein';

/** The candidate nearest to `word`, or undefined when none is near enough (a third of its length). */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = word.toLowerCase();
  let best: string | undefined;
  let bestDistance = Math.max(2, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of candidates) {
    const apart = distance(wanted, candidate.toLowerCase());
    if (apart < bestDistance) [best, bestDistance] = [candidate, apart];
  }
  return best;
}
