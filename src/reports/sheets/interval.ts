// Intervals: of means of things that cannot be fewer than none, and of days.
import { isNotEnough, type NotEnough } from '../../measure/index.ts';

/** There are no fewer trees than none, whatever the interval of a mean says. */
export function atLeast0(low: number): number {
  return Math.max(0, low);
}

/** Said where `atLeast0` changes what is shown; the figures themselves keep the interval as it was computed. */
export function belowZero(answers: readonly (Readonly<{ low: number }> | NotEnough)[]): string[] {
  return answers.some((answer) => !isNotEnough(answer) && answer.low < 0)
    ? [
        'The interval of a mean goes below zero and is shown from 0: with so few or so unlike plots it says little.',
      ]
    : [];
}

/** The day of something that was done on one; of what took several, the first and the last. */
export function daysOf({ from, to }: Readonly<{ from: string; to: string }>): string {
  const [first, last] = [from.slice(0, 10), to.slice(0, 10)];
  return first === last ? first : `${first} to ${last}`;
}
