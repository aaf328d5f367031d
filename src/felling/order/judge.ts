// What an order does that somebody else chose: the sums of a sequence of falls, whether or not it keeps to the limit.
import type { OrderProblem, Segment } from './problem.ts';

/** One fall of a sequence: a stem and the index of its choice. */
export type SequenceFall = Readonly<{ stem: number; choice: number }>;

export type Judged = Readonly<{
  hangUps: number;
  loss: number;
  /** How many falls are over the limit. */
  overLimit: number;
  /** Chance that no fall hangs up. */
  without: number;
}>;

/** A hang-up counts as so many saplings where one number is needed, as for a habit or a list. Guess, no source. */
export const hangUpWorth = 50;

/** Chance that a fall hangs up while some of the group stand. */
export function hangUpChance(segments: readonly Segment[], stands: (stem: number) => boolean): number {
  let chance = 0;
  for (const { weight, always, holds } of segments) {
    let past = always;
    for (const { stem, survival } of holds) if (stands(stem)) past *= survival;
    chance += weight * (1 - past);
  }
  return chance;
}

/** Stems that are not in the sequence stand all the time. */
export function judged({ stems, limit }: OrderProblem, sequence: readonly SequenceFall[]): Judged {
  const down = new Set<number>();
  let [hangUps, loss, overLimit, without] = [0, 0, 0, 1];
  for (const { stem, choice } of sequence) {
    down.add(stem);
    const chosen = stems[stem]?.choices[choice];
    if (chosen === undefined) continue;
    const chance = hangUpChance(chosen.segments, (other) => !down.has(other));
    hangUps += chance;
    loss += chosen.loss;
    without *= 1 - chance;
    if (chance > limit + 1e-9) overLimit += 1;
  }
  return { hangUps, loss, overLimit, without };
}
