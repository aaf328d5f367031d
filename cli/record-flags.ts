// The flags of "gapledger record": made from the fields of the kind, so that nothing is typed twice.
import { Command, CommanderError } from 'commander';
import { isRequired, type Kind, kinds, kindTypes } from '../src/events/index.ts';
import { type CommonOptions, exitCodes, exitHelp, Failure } from './terminal/index.ts';

export type Flags = CommonOptions & {
  at?: string;
  by?: string;
  remember?: boolean;
  from?: string;
  dryRun?: boolean;
  answer?: string[];
} & Record<string, unknown>;

type AnswerFlag = {
  answer: string;
  help: string;
  kinds?: readonly string[];
  /** The answer may say which one: "same-stem:ID" is --same-stem ID. */
  which?: string;
};

/** Words that answer a question in advance, as flags; some questions only some kinds raise. */
const answerFlags: Readonly<Record<string, AnswerFlag>> = {
  keepBoth: {
    answer: 'keep-both',
    help: 'if the tag or label is in use, or the stem is down already: keep both',
    kinds: [
      'stem-marked',
      'tag-replaced',
      'stem-felled',
      'stem-found-down',
      'stem-found-dead',
      'stake-set',
      'group-laid-out',
      'block-laid-out',
      'sapling-protected',
      'patch-protected',
      'person-named',
      'entry-amended',
    ],
  },
  sameStem: {
    answer: 'same-stem',
    help: 'if the tag is in use: it is that stem (its id, if several carry the tag), record the mark and measures for it',
    kinds: ['stem-marked'],
    which: 'id',
  },
  correct: {
    answer: 'correct',
    help: 'if the stem is down already: the earlier entry is wrong, amend it with this one',
    kinds: ['stem-felled'],
  },
  cleared: {
    answer: 'cleared',
    help: 'if the stem is hung up: it is down now, record hang-up-cleared',
    kinds: ['stem-felled'],
  },
  anyway: { answer: 'anyway', help: 'whatever else would be asked: record it as typed' },
};

/** Members that the program fills in itself; nobody types them. */
const filledIn: Readonly<Record<string, readonly string[]>> = {
  'entry-amended': ['type', 'v', 'body', 'happenedAt'],
};

/** What the help adds for kinds that are recorded in their own way. */
const hints: Readonly<Record<string, string>> = {
  'entry-amended': `
Give what was wrong as flags of the entry's own kind; everything else stays as it
was. --take-out takes a field out. --at gives another time of happening. --reason is why
you amend; the reason that the entry itself gives is --its-reason.
  gapledger record entry-amended --replaces 17 --tag A12 --reason "tag misread"
  gapledger record entry-amended --replaces 17 --take-out height --reason "was guessed, not measured"
  gapledger record entry-amended --replaces 17 --its-reason "dead top" --reason "not leaning, looked again"
`,
  'report-issued': '\n"gapledger report --issue OFFICE" writes the report and records this by itself.\n',
};

/** Flags of a kind come from its fields: nothing is typed twice. */
export function commandFor(kind: Kind | undefined): Command {
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
    .option('--by <person>', 'who did it; you if left out')
    .option('--remember', 'with --by: from now on this machine records as that person')
    .helpOption('-h, --help', 'print this help');
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
    if (field.form.is === 'identity' || filledIn[kind.type]?.includes(name)) continue;
    const list = field.form.is === 'list';
    const options = field.form.is === 'choice' ? ` (${field.form.options.join(', ')})` : '';
    command.option(
      `--${kebab(name)} <${list ? 'values...' : 'value'}>`,
      `${field.help}${options}${isRequired(field) ? ' Needed.' : ''}`,
    );
  }
  if (kind.type === 'entry-amended') {
    command
      .option('--take-out <fields...>', 'fields that the entry should not have: height, or stump-height')
      .option('--its-reason <value>', 'the reason that the entry itself gives, of a mark or a strike')
      .allowUnknownOption()
      .allowExcessArguments();
  }
  addAnswers(command, kind);
  const example = Object.entries(kind.example).map(
    ([name, value]) => `--${kebab(name)} ${/[^\w./-]/.test(value) ? `"${value}"` : value}`,
  );
  return command.addHelpText(
    'after',
    `\nExample:\n  gapledger record ${kind.type} ${example.join(' ')}\n${hints[kind.type] ?? ''}\n${exitHelp}`,
  );
}

function addAnswers(command: Command, { type }: Kind): void {
  for (const { answer, help, kinds: only, which } of Object.values(answerFlags)) {
    const value = which === undefined ? '' : ` [${which}]`;
    if (only === undefined || only.includes(type)) command.option(`--${answer}${value}`, help);
  }
}

/** By chapter, each chapter once, in the order in which woods are worked. */
function listOfKinds(): string {
  const chapters = new Map<string, string[]>();
  for (const type of kindTypes) {
    const { chapter, help } = kinds[type];
    const line = `    ${type.padEnd(26)}${help.split('. ')[0]?.replace(/\.$/, '')}`;
    chapters.set(chapter, [...(chapters.get(chapter) ?? []), line]);
  }
  return [...chapters].map(([chapter, lines]) => `  ${chapter}\n${lines.join('\n')}`).join('\n');
}

export function parse(command: Command, words: readonly string[]): Flags {
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
  const left = [...words];
  for (let word = left.shift(); word !== undefined; word = left.shift()) {
    const [, name, inline] = /^--([a-z][a-z-]*)(?:=(.*))?$/.exec(word) ?? [];
    if (name === undefined) throw new Failure(exitCodes.badInput, `"${word}": write flags as --name value.`);
    const value = inline ?? left.shift();
    if (value === undefined) throw new Failure(exitCodes.badInput, `--${name}: write a value after it.`);
    fields[camel(name)] = value;
  }
  return fields;
}

/** What was typed for the entry itself. */
export function fieldsOf(flags: Flags): Record<string, unknown> {
  const common = new Set([
    'logbook',
    'json',
    'at',
    'by',
    'remember',
    'from',
    'dryRun',
    ...Object.keys(answerFlags),
  ]);
  return Object.fromEntries(Object.entries(flags).filter(([name]) => !common.has(name)));
}

export function answersOf(flags: Flags): string[] {
  return Object.entries(answerFlags).flatMap(([flag, { answer }]) => {
    const given = flags[flag];
    if (typeof given === 'string') return [`${answer}:${given}`];
    return given === true ? [answer] : [];
  });
}

/** The flag that gives an answer. */
export function flagOf(answer: string): string {
  return `--${answer.replace(':', ' ')}`;
}

export function pick<K extends 'at' | 'by'>(flags: Flags, name: K): { [P in K]?: string } {
  const value = flags[name];
  return (typeof value === 'string' ? { [name]: value } : {}) as { [P in K]?: string };
}

/** stumpHeight as a flag: stump-height. */
export function kebab(name: string): string {
  return name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function camel(name: string): string {
  return name.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}
