// gapledger record: one entry from flags, asking for what is missing; or a file of entries from a device.
import { Command, CommanderError } from 'commander';
import { isRequired, type Kind, kinds, kindTypes, type TypingProblem } from '../src/events/index.ts';
import { type Draft, kindTyped, type Question, recordDraft } from '../src/record/index.ts';
import { recordFile } from './record-file.ts';
import { describeRecorded } from './recorded.ts';
import {
  ask,
  type CommonOptions,
  canAsk,
  choose,
  exitCodes,
  exitHelp,
  Failure,
  withDesk,
} from './terminal/index.ts';

type Flags = CommonOptions & {
  at?: string;
  by?: string;
  from?: string;
  dryRun?: boolean;
  answer?: string[];
} & Record<string, unknown>;

/** Words that answer a question in advance, as flags. */
const answerFlags = {
  keepBoth: 'keep-both',
  sameStem: 'same-stem',
  correct: 'correct',
  anyway: 'anyway',
} as const;

export async function work(words: string[]): Promise<number | undefined> {
  const named = nameOf(words);
  const kind = named === undefined ? undefined : kindTyped(named.name);
  const command = commandFor(kind);
  if (named === undefined && (words.length === 0 || words.includes('--help') || words.includes('-h'))) {
    command.outputHelp();
    return exitCodes.done;
  }
  const flags = parse(command, named?.rest ?? words);
  if (flags.from !== undefined) return withDesk(flags, (desk) => recordFile(desk, String(flags.from), flags));
  if (named === undefined)
    throw new Failure(
      exitCodes.badInput,
      'Say what to record: a kind, or --from FILE. "gapledger record --help" lists the kinds.',
    );
  const draft: Draft = {
    kind: named.name,
    fields: fieldsOf(kind, flags),
    answers: answersOf(flags),
    ...pick(flags, 'at'),
    ...pick(flags, 'by'),
  };
  await withDesk(flags, async (desk) => {
    for (let current = draft; ; ) {
      const recorded = await recordDraft(desk, current);
      if (recorded.outcome === 'recorded') return describeRecorded(recorded, flags.json === true);
      const next = canAsk() && flags.json !== true ? await askFor(current, recorded) : undefined;
      if (next === undefined) throw refusal(recorded);
      current = next;
    }
  });
  return undefined;
}

type Unrecorded =
  | { outcome: 'problems'; problems: readonly TypingProblem[] }
  | { outcome: 'questions'; questions: readonly Question[] };

/** The kind is the words before the first flag: "stem marked" or stem-marked. */
function nameOf(words: readonly string[]): { name: string; rest: string[] } | undefined {
  const flagAt = words.findIndex((word) => word.startsWith('-'));
  const name = words.slice(0, flagAt === -1 ? undefined : flagAt).join(' ');
  return name === '' ? undefined : { name, rest: flagAt === -1 ? [] : words.slice(flagAt) };
}

/** Flags of a kind come from its fields: nothing is typed twice. */
function commandFor(kind: Kind | undefined): Command {
  const command = new Command(`gapledger record ${kind?.type ?? '<kind>'}`)
    .description(kind?.help ?? 'Record one entry, or a file of entries.')
    .usage('[flags]')
    .exitOverride()
    .option('--logbook <file>', 'the logbook (or GAPLEDGER_LOGBOOK)')
    .option('--json', 'print JSON')
    .option(
      '--at <time>',
      'when it happened: 2026-03-14 09:30, 09:30, yesterday, 2026-03-14; now if left out',
    )
    .option('--by <person>', 'who did it; you if left out');
  if (kind === undefined) {
    command
      .option(
        '--from <file>',
        'JSON lines: entries as a device wrote them, or drafts {"kind", "fields", "at", "by", "answers"}; - for standard input',
      )
      .option('--dry-run', 'with --from: look at everything and append nothing')
      .option('--anyway', 'with --from: answers what is asked about the file as a whole');
    return command.addHelpText(
      'after',
      `\nKinds:\n${listOfKinds()}\n\nExamples:\n  gapledger record stem-marked --mark cut --tag A12 --species "scarlet oak" --dbh 14.2\n  gapledger record stem-marked --help\n  gapledger record --from phone.jsonl\n\n${exitHelp}`,
    );
  }
  for (const [name, field] of Object.entries(kind.fields)) {
    if (field.form.is === 'identity') continue;
    const list = field.form.is === 'list';
    const options = field.form.is === 'choice' ? ` (${field.form.options.join(', ')})` : '';
    command.option(
      `--${kebab(name)} <${list ? 'values...' : 'value'}>`,
      `${field.help}${options}${isRequired(field) ? ' Needed.' : ''}`,
    );
  }
  if (kind.type === 'entry-amended') command.allowUnknownOption().allowExcessArguments();
  for (const answer of Object.values(answerFlags))
    command.option(`--${answer}`, `answers a question with "${answer}"`);
  const example = Object.entries(kind.example).map(
    ([name, value]) => `--${kebab(name)} ${/[^\w./-]/.test(value) ? `"${value}"` : value}`,
  );
  return command.addHelpText(
    'after',
    `\nExample:\n  gapledger record ${kind.type} ${example.join(' ')}\n\n${exitHelp}`,
  );
}

function listOfKinds(): string {
  let chapter = '';
  return kindTypes
    .map((type) => {
      const kind = kinds[type];
      const heading = kind.chapter === chapter ? '' : `  ${kind.chapter}\n`;
      chapter = kind.chapter;
      return `${heading}    ${type.padEnd(24)}${kind.help.split('. ')[0]?.replace(/\.$/, '')}`;
    })
    .join('\n');
}

function parse(command: Command, words: readonly string[]): Flags {
  try {
    command.parse([...words], { from: 'user' });
    return { ...command.opts<Flags>(), ...otherFields(command.args) };
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) throw error;
    throw new Failure(exitCodes.badInput, `"${command.name()} --help" shows its flags.`);
  }
}

/** Flags that an amendment takes over from the kind that it amends. */
function otherFields(words: readonly string[]): Record<string, string> {
  const fields: Record<string, string> = {};
  for (let index = 0; index < words.length; index += 1) {
    const [, name, inline] = /^--([a-z][a-z-]*)(?:=(.*))?$/.exec(words[index] ?? '') ?? [];
    if (name === undefined)
      throw new Failure(exitCodes.badInput, `"${words[index]}": write flags as --name value.`);
    fields[camel(name)] = inline ?? words[(index += 1)] ?? '';
  }
  return fields;
}

function fieldsOf(kind: Kind | undefined, flags: Flags): Record<string, unknown> {
  const common = new Set(['logbook', 'json', 'at', 'from', 'dryRun', ...Object.keys(answerFlags)]);
  // "by" is who recorded, except where the kind has a field of that name and it is not a person.
  return Object.fromEntries(
    Object.entries(flags).filter(([name]) => !common.has(name) && (name !== 'by' || kind === undefined)),
  );
}

function answersOf(flags: Flags): string[] {
  return Object.entries(answerFlags).flatMap(([flag, answer]) => (flags[flag] === true ? [answer] : []));
}

function pick<K extends 'at' | 'by'>(flags: Flags, name: K): { [P in K]?: string } {
  const value = flags[name];
  return (typeof value === 'string' ? { [name]: value } : {}) as { [P in K]?: string };
}

/** Asks for what is missing and for the choices that are open; undefined when asking does not help. */
async function askFor(draft: Draft, unrecorded: Unrecorded): Promise<Draft | undefined> {
  if (unrecorded.outcome === 'questions') {
    const answers = [...(draft.answers ?? [])];
    for (const { sentence, choices } of unrecorded.questions) {
      const answer = await choose(
        sentence,
        choices.map(({ answer: value, label }) => ({ label, value })),
      );
      if (answer === undefined) return undefined;
      answers.push(answer);
    }
    return { ...draft, answers };
  }
  if (!unrecorded.problems.every(({ missing, choices }) => missing === true || choices !== undefined))
    return undefined;
  const fields: Record<string, unknown> = { ...draft.fields };
  let at = draft.at;
  for (const problem of unrecorded.problems) {
    const sentence = `${problem.field}${problem.value === '' ? '' : ` "${problem.value}"`} ${problem.remedy}`;
    const text = problem.choices
      ? await choose(
          sentence,
          problem.choices.map((choice) => ({ label: choice.label, value: choice.text })),
        )
      : await ask(sentence);
    if (text === undefined || text === '') return undefined;
    if (problem.field === 'at') at = text;
    else fields[problem.field] = text;
  }
  return { ...draft, fields, ...(at === undefined ? {} : { at }) };
}

/** What was not recorded, one line for each thing, with the flags that answer. */
function refusal(unrecorded: Unrecorded): Failure {
  if (unrecorded.outcome === 'questions') {
    const lines = unrecorded.questions.map(
      ({ sentence, choices }) =>
        `${sentence}\n${choices.map(({ answer, label }) => `  --${answer}: ${label}`).join('\n')}`,
    );
    return new Failure(exitCodes.badInput, `${lines.join('\n')}\nNothing was recorded.`, unrecorded);
  }
  const lines = unrecorded.problems.map(({ field, value, remedy, choices }) => {
    const list =
      choices?.map(({ label, text }) => `\n  ${kebabFlag(field)} "${text}": ${label}`).join('') ?? '';
    return `${kebabFlag(field)}${value === '' ? '' : ` "${value}"`}: ${remedy}${list}`;
  });
  return new Failure(exitCodes.badInput, `${lines.join('\n')}\nNothing was recorded.`, unrecorded);
}

function kebabFlag(field: string): string {
  return field === 'kind' ? 'kind' : `--${kebab(field)}`;
}

function kebab(name: string): string {
  return name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function camel(name: string): string {
  return name.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}
