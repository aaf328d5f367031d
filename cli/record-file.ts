// A file of entries: what a device wrote is taken in as it is; drafts are decided as if typed, all or nothing.
import { readFileSync } from 'node:fs';
import {
  crowdingQuestions,
  type Desk,
  type Draft,
  type OutboxLine,
  outboxLines,
  type Question,
  type Recorded,
  readStand,
  recordDraft,
  stage,
} from '../src/record/index.ts';
import { receiveOutbox } from './record-outbox.ts';
import { exitCodes, Failure, problemSentence, progress, say, sayJson, tell } from './terminal/index.ts';

type Options = {
  json?: boolean;
  dryRun?: boolean;
  /** Answers what is asked about the file as a whole; its lines carry their own answers. */
  anyway?: boolean;
};
type Refused = { line: number; result: Exclude<Recorded, { outcome: 'recorded' }> };
type Line = OutboxLine & { draft: Draft | undefined };

/** Takes in a file of JSON lines; gives the exit code. */
export async function recordFile(desk: Desk, path: string, options: Options): Promise<number> {
  const lines = readLines(path);
  if (lines.length === 0 && options.json !== true) {
    tell(`${path}: holds no lines; nothing was recorded.`);
    return exitCodes.done;
  }
  const drafts = lines.filter(({ draft }) => draft !== undefined);
  if (drafts.length > 0 && drafts.length < lines.length) {
    throw new Failure(
      exitCodes.badInput,
      `${path}: holds drafts and finished entries. Put them in two files; nothing was recorded.`,
    );
  }
  return drafts.length > 0
    ? recordDrafts(desk, path, lines, options)
    : receiveOutbox(desk, path, lines, options);
}

function readLines(path: string): Line[] {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path === '-' ? 0 : path);
  } catch {
    throw new Failure(exitCodes.badInput, `--from ${path}: there is no such file, or it cannot be read.`);
  }
  return outboxLines(bytes).map((line) => ({ ...line, draft: draftOf(line.incoming.bytes) }));
}

/** A line with a "kind" is a draft; everything else is an entry, readable or not, and its bytes stay as they are. */
function draftOf(bytes: Uint8Array): Draft | undefined {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
  if (typeof value !== 'object' || value === null || !('kind' in value)) return undefined;
  const { kind, fields, at, by, answers } = value as Record<string, unknown>;
  return {
    kind: String(kind),
    fields: typeof fields === 'object' && fields !== null ? (fields as Draft['fields']) : {},
    ...(typeof at === 'string' ? { at } : {}),
    ...(typeof by === 'string' ? { by } : {}),
    ...(Array.isArray(answers) ? { answers: answers.map(String) } : {}),
  };
}

async function recordDrafts(
  desk: Desk,
  path: string,
  lines: readonly Line[],
  options: Options,
): Promise<number> {
  const staged = await stage(desk);
  const { refused, stems } = await decideLines(staged.desk, lines);
  const whole = options.anyway === true ? [] : crowdingQuestions(await readStand(staged.desk.log), stems);
  if (refused.length > 0 || whole.length > 0) throw refusal(path, whole, refused);
  if (options.dryRun === true) {
    if (options.json === true) sayJson({ dryRun: true, wouldRecord: staged.count() });
    else say(`${staged.count()} entries would be recorded; nothing was.`);
    return exitCodes.done;
  }
  const receipts = await staged.commit();
  if (options.json === true) sayJson({ receipts });
  else say(`Recorded ${receipts.length} entries from ${path}.`);
  return exitCodes.done;
}

/** Decides one line after the other; says which were refused and which stems the others are about. */
async function decideLines(
  desk: Desk,
  lines: readonly Line[],
): Promise<{ refused: Refused[]; stems: Set<string> }> {
  const refused: Refused[] = [];
  const stems = new Set<string>();
  const bar = progress('Looked at');
  for (const { number, draft } of lines) {
    if (draft === undefined) continue;
    const result = await recordDraft(desk, draft);
    if (result.outcome !== 'recorded') refused.push({ line: number, result });
    else for (const { body } of result.envelopes) if (typeof body.stem === 'string') stems.add(body.stem);
    bar.at(number, lines.length);
  }
  bar.end();
  return { refused, stems };
}

/** What is asked about the file as a whole comes first: it often explains the rest. */
function refusal(path: string, whole: readonly Question[], refused: readonly Refused[]): Failure {
  const aboutFile = whole.map(
    ({ sentence, choices }) =>
      `${path}: ${sentence}\n${choices.map(({ answer, label }) => `  --${answer}: ${label}`).join('\n')}`,
  );
  const aboutLines = refused
    .slice(0, 20)
    .flatMap(({ line, result }) =>
      sentencesOf(result).map((sentence) => `${path} line ${line}: ${sentence}`),
    );
  const rest = refused.length > 20 ? [`and ${refused.length - 20} more lines`] : [];
  return new Failure(
    exitCodes.badInput,
    [...aboutFile, ...aboutLines, ...rest, 'Nothing was recorded.'].join('\n'),
    { questions: whole, refused },
  );
}

function sentencesOf(result: Refused['result']): string[] {
  if (result.outcome === 'problems') return result.problems.map((problem) => problemSentence(problem));
  return result.questions.map(
    ({ sentence, choices }) =>
      `${sentence} Answer with "answers": ["${choices.map(({ answer }) => answer).join('"] or ["')}"].`,
  );
}
