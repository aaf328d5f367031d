/** Taking a figure out of an answer, for tests that expect one. */
import { isNotEnough, type NotEnough } from '../../src/measure/index.ts';

/** The answer when it is one; a test that expected one fails with the words that say what is missing. */
export function given<Answer>(answer: Answer | NotEnough): Answer {
  if (isNotEnough(answer)) throw new Error(answer.notEnough);
  return answer;
}

/** The number of a figure. */
export function number(answer: Readonly<{ value: number }> | NotEnough): number {
  return given(answer).value;
}

/** The words for what is missing; a test that expected them fails when there is a figure. */
export function missing(answer: unknown): string {
  if (isNotEnough(answer)) return answer.notEnough;
  throw new Error(`there is an answer: ${JSON.stringify(answer)}`);
}
