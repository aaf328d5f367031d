// Asking in tests: one draft, one question, and nothing recorded by it.
import { expect } from 'vitest';
import { questionsOf, type Woods } from './woods.ts';

/** Asks once, expects this question alone, and that nothing was recorded by asking. */
export async function asked(
  here: Woods,
  code: string,
  kind: string,
  fields: Record<string, unknown>,
  at?: string,
) {
  const before = await here.size();
  const questions = questionsOf(await here.tryIt(kind, fields, at === undefined ? {} : { at }));
  expect(questions.map((question) => question.code)).toEqual([code]);
  expect(await here.size()).toBe(before);
  const [question] = questions;
  if (question === undefined) throw new Error('no question');
  return { sentence: question.sentence, answers: question.choices.map(({ answer }) => answer) };
}
