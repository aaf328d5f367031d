// Asking at a terminal. Where nobody can answer, nothing is asked: the question is printed and the command ends.
import { createInterface } from 'node:readline/promises';
import { exitCodes, Failure } from './failure.ts';

export function canAsk(): boolean {
  return Boolean(process.stdin.isTTY && process.stdout.isTTY);
}

/** Asks for a line. An empty answer gives `fallback`. */
export async function ask(question: string, fallback = ''): Promise<string> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  const leave = new AbortController();
  lines.once('close', () => leave.abort());
  try {
    const answer = await lines.question(`${question}${fallback === '' ? '' : ` [${fallback}]`}: `, {
      signal: leave.signal,
    });
    return answer.trim() === '' ? fallback : answer.trim();
  } catch {
    throw new Failure(exitCodes.badInput, 'Nothing was recorded.');
  } finally {
    lines.close();
  }
}

/** Lets a person choose one of several by number; undefined when none is chosen. */
export async function choose<T>(
  sentence: string,
  choices: readonly { label: string; value: T }[],
): Promise<T | undefined> {
  process.stderr.write(`${sentence}\n`);
  for (const [index, { label }] of choices.entries()) process.stderr.write(`  ${index + 1}  ${label}\n`);
  const answer = await ask(`1 to ${choices.length}, or Enter for none of them`);
  return choices[Number(answer) - 1]?.value;
}
