// Four habits, to compare a plan with: how the same stems would be felled without one. None looks at what waits for what.

import { turn } from '../model/fall.ts';
import { hangUpChance, hangUpWorth, judged, type SequenceFall } from './judge.ts';
import type { OrderProblem } from './problem.ts';
import { seeded } from './random.ts';

/** Where a stem stands, metres east and north, and the azimuth of its lean. */
export type Standing = Readonly<{ x: number; y: number; lean: number }>;

/** How many plans are drawn at random. */
const draws = 1000;

/** With the lean, each time the stem nearest to the last one; the first is the one farthest out. */
export function withTheLean(
  problem: OrderProblem,
  at: readonly Standing[],
  felled: readonly number[],
): SequenceFall[] {
  return nearestNext(at, felled).map((stem) => ({
    stem,
    choice: leastOf(problem, stem, ({ aim }) => Math.abs(turn(aim - (at[stem]?.lean ?? 0)))),
  }));
}

/** To the side where least stands in the way as the group is found, each time the stem nearest to the last one. */
export function toTheOpenSide(
  problem: OrderProblem,
  at: readonly Standing[],
  felled: readonly number[],
): SequenceFall[] {
  return nearestNext(at, felled).map((stem) => ({
    stem,
    choice: leastOf(problem, stem, ({ segments }) => hangUpChance(segments, (other) => other !== stem)),
  }));
}

/** The best of 1,000 plans drawn at random, a hang-up counting as 50 saplings. */
export function bestOfRandom(problem: OrderProblem, felled: readonly number[], seed: number): SequenceFall[] {
  const random = seeded(seed);
  let best: SequenceFall[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let draw = 0; draw < draws; draw += 1) {
    const order = [...felled];
    for (let place = order.length - 1; place > 0; place -= 1) {
      const other = Math.floor(random() * (place + 1));
      [order[place], order[other]] = [order[other] ?? 0, order[place] ?? 0];
    }
    const sequence = order.map((stem) => ({
      stem,
      choice: Math.floor(random() * (problem.stems[stem]?.choices.length ?? 1)),
    }));
    const { hangUps, loss } = judged(problem, sequence);
    if (hangUpWorth * hangUps + loss < least) [best, least] = [sequence, hangUpWorth * hangUps + loss];
  }
  return best;
}

/** Each time the stem and the aim with the least harm now, a hang-up counting as 50 saplings. */
export function carefulGreedy(problem: OrderProblem, felled: readonly number[]): SequenceFall[] {
  const standing = new Set(problem.stems.keys());
  const left = new Set(felled);
  const sequence: SequenceFall[] = [];
  while (left.size > 0) {
    let best: SequenceFall | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const stem of left) {
      const stands = (other: number): boolean => other !== stem && standing.has(other);
      problem.stems[stem]?.choices.forEach(({ segments, loss }, choice) => {
        const harm = hangUpWorth * hangUpChance(segments, stands) + loss;
        if (harm < least) [best, least] = [{ stem, choice }, harm];
      });
    }
    if (best === undefined) break;
    sequence.push(best);
    left.delete(best.stem);
    standing.delete(best.stem);
  }
  return sequence;
}

function leastOf(
  { stems }: OrderProblem,
  stem: number,
  score: (choice: OrderProblem['stems'][number]['choices'][number]) => number,
): number {
  const scores = (stems[stem]?.choices ?? []).map(score);
  return scores.indexOf(scores.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY));
}

function nearestNext(at: readonly Standing[], felled: readonly number[]): number[] {
  const mean = (of: (one: Standing) => number): number =>
    felled.reduce((sum, stem) => sum + of(at[stem] ?? { x: 0, y: 0, lean: 0 }), 0) / felled.length;
  const middle = { x: mean(({ x }) => x), y: mean(({ y }) => y) };
  const apart = (stem: number, from: Readonly<{ x: number; y: number }>): number =>
    Math.hypot((at[stem]?.x ?? 0) - from.x, (at[stem]?.y ?? 0) - from.y);
  const left = [...felled].sort((a, b) => apart(b, middle) - apart(a, middle) || a - b);
  const order = left.splice(0, 1);
  while (left.length > 0) {
    const last = at[order.at(-1) ?? 0] ?? middle;
    left.sort((a, b) => apart(a, last) - apart(b, last) || a - b);
    order.push(...left.splice(0, 1));
  }
  return order;
}
