// gapledger record: one entry from flags, asking for what is missing; or a file of entries from a device.
import { nearestKind } from '../src/events/index.ts';
import { type Desk, type Draft, kindTyped, recordDraft } from '../src/record/index.ts';
import { askFor, refusal } from './record-asking.ts';
import { recordFile } from './record-file.ts';
import { answersOf, commandFor, fieldsOf, parse, pick } from './record-flags.ts';
import { describeRecorded } from './recorded.ts';
import { canAsk, exitCodes, Failure, rememberPerson, tell, withDesk } from './terminal/index.ts';

export async function work(words: string[]): Promise<number | undefined> {
  const named = nameOf(words);
  const kind = named === undefined ? undefined : kindTyped(named.name);
  if (named !== undefined && kind === undefined) throw unknownKind(named.name);
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
    fields: fieldsOf(flags),
    answers: answersOf(flags),
    ...pick(flags, 'at'),
    ...pick(flags, 'by'),
  };
  await withDesk(flags, async (desk) => {
    for (let current = draft; ; ) {
      const recorded = await recordDraft(desk, current);
      if (recorded.outcome === 'recorded') {
        keepPerson(desk, recorded.envelopes[0]?.by, { said: current.by, again: flags.remember });
        return describeRecorded(desk.log, recorded, flags.json === true);
      }
      const next = canAsk() && flags.json !== true ? await askFor(current, recorded) : undefined;
      if (next === undefined) throw refusal(recorded);
      current = next;
    }
  });
  return undefined;
}

function unknownKind(name: string): Failure {
  const near = nearestKind(name);
  const remedy =
    near === undefined
      ? 'there is no such kind; "gapledger record --help" lists them.'
      : `there is no such kind; did you mean ${near}?`;
  return new Failure(exitCodes.badInput, `kind "${name}": ${remedy}\nNothing was recorded.`);
}

/** Who records here is remembered once somebody has said it, and changed only when asked to. */
function keepPerson(
  desk: Desk,
  person: string | undefined,
  { said, again }: { said: string | undefined; again: boolean | undefined },
): void {
  if (person === undefined || said === undefined || (desk.person !== undefined && again !== true)) return;
  rememberPerson(desk, person);
  tell(`From now on this machine records as ${said}; --by names somebody else.`);
}

/** The kind is the words before the first flag: "stem marked" or stem-marked. */
function nameOf(words: readonly string[]): { name: string; rest: string[] } | undefined {
  const flagAt = words.findIndex((word) => word.startsWith('-'));
  const name = words.slice(0, flagAt === -1 ? undefined : flagAt).join(' ');
  return name === '' ? undefined : { name, rest: flagAt === -1 ? [] : words.slice(flagAt) };
}
