// What is asked when an entry cannot be recorded as typed: at a terminal the person answers, elsewhere the
// command ends with the flags that would answer.
import type { TypingProblem } from '../src/events/index.ts';
import type { Draft, Question } from '../src/record/index.ts';
import { flagOf, kebab } from './record-flags.ts';
import { ask, choose, exitCodes, Failure, problemSentence } from './terminal/index.ts';

export type Unrecorded =
  | { outcome: 'problems'; problems: readonly TypingProblem[] }
  | { outcome: 'questions'; questions: readonly Question[] };

/** Asks for what is missing and for the choices that are open; undefined when asking does not help. */
export async function askFor(draft: Draft, unrecorded: Unrecorded): Promise<Draft | undefined> {
  return unrecorded.outcome === 'questions'
    ? askQuestions(draft, unrecorded.questions)
    : askFields(draft, unrecorded.problems);
}

async function askQuestions(draft: Draft, questions: readonly Question[]): Promise<Draft | undefined> {
  const answers = [...(draft.answers ?? [])];
  for (const { sentence, choices } of questions) {
    const answer = await choose(
      sentence,
      choices.map(({ answer: value, label }) => ({ label, value })),
    );
    if (answer === undefined) return undefined;
    answers.push(answer);
  }
  return { ...draft, answers };
}

async function askFields(draft: Draft, problems: readonly TypingProblem[]): Promise<Draft | undefined> {
  if (!problems.every(({ missing, choices }) => missing === true || (choices?.length ?? 0) > 0))
    return undefined;
  let asked = draft;
  for (const problem of problems) {
    const text = await askField(problem);
    if (text === undefined || text === '') return undefined;
    const { field } = problem;
    asked =
      field === 'at' || field === 'by'
        ? { ...asked, [field]: text }
        : { ...asked, fields: { ...asked.fields, [field]: text } };
  }
  return asked;
}

async function askField(problem: TypingProblem): Promise<string | undefined> {
  const { field, choices } = problem;
  const sentence = problemSentence(problem);
  if (choices === undefined) return ask(`${sentence}\n${field}`);
  return choose(
    sentence,
    choices.map(({ label, text }) => ({ label, value: text })),
  );
}

/** What was not recorded, one line for each thing, with the flags that answer. */
export function refusal(unrecorded: Unrecorded): Failure {
  if (unrecorded.outcome === 'questions') {
    const lines = unrecorded.questions.map(
      ({ sentence, choices }) =>
        `${sentence}\n${choices.map(({ answer, label }) => `  ${flagOf(answer)}: ${label}`).join('\n')}`,
    );
    return new Failure(exitCodes.badInput, `${lines.join('\n')}\nNothing was recorded.`, unrecorded);
  }
  const lines = unrecorded.problems.map((problem) => {
    const { field, choices } = problem;
    const list =
      choices?.map(({ label, text }) => `\n  ${kebabFlag(field)} "${text}": ${label}`).join('') ?? '';
    return `${problemSentence(problem, kebabFlag(field))}${list}`;
  });
  return new Failure(exitCodes.badInput, `${lines.join('\n')}\nNothing was recorded.`, unrecorded);
}

function kebabFlag(field: string): string {
  return field === 'kind' ? 'kind' : `--${kebab(field)}`;
}
