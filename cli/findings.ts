// gapledger findings: what an auditor would ask about, the open ones about the woods first.
import { type Finding, type Folded, isAboutRecord, words } from '../src/stand/index.ts';
import { sayDangers } from './cautions.ts';
import { findGroup } from './group.ts';
import {
  type CommonOptions,
  counted,
  type MomentOptions,
  paint,
  readMoment,
  say,
  sayJson,
  standAt,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & { group?: string; all?: boolean };

export async function work(_words: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const folded = await standAt(log, await readMoment(log, flags));
    const group = flags.group === undefined ? undefined : findGroup(folded.stand, flags.group).id;
    const findings = folded.findings.filter(({ about }) => group === undefined || about.group === group);
    const numbered = findings.map((finding) => ({ ...finding, numbers: numbersOf(finding, folded) }));
    if (flags.json) return sayJson(numbered);
    sayDangers(folded.stand);
    say('');
    if (findings.length === 0) return say('No findings.');
    print(numbered, flags.all === true);
  });
}

type Numbered = Finding & { numbers: readonly string[] };

function print(findings: readonly Numbered[], all: boolean): void {
  const woods = findings.filter((finding) => !isAboutRecord(finding));
  const open = woods.filter(({ settled }) => settled === undefined);
  const record = findings.filter(isAboutRecord);
  for (const finding of open) printOne(finding);
  if (all) {
    for (const finding of woods) if (finding.settled !== undefined) printOne(finding);
    for (const finding of record) printOne(finding);
    return;
  }
  const settled = woods.length - open.length;
  if (settled > 0) say(`${counted(settled, 'finding was', 'findings were')} settled by later entries.`);
  const codes = new Map<string, number>();
  for (const { code } of record) codes.set(code, (codes.get(code) ?? 0) + 1);
  if (codes.size > 0)
    say(`About the record: ${[...codes].map(([code, count]) => `${words(code)} ${count}×`).join(', ')}.`);
  if (settled > 0 || codes.size > 0) say('"gapledger findings --all" prints each of them.');
}

function printOne({ code, sentence, remedy, numbers, settled }: Numbered): void {
  const state = settled === undefined ? '' : paint.dim(' (settled)');
  say(`${paint.bold(words(code))}${state}: ${sentence} ${paint.dim(`[${numbers.join(', ')}]`)}`);
  if (settled === undefined) say(`  ${remedy}`);
}

/** Numbers of the entries behind a finding; an entry that is not here is named by its id. */
function numbersOf(finding: Finding, folded: Folded): string[] {
  return finding.entries.map((id) => {
    const position = folded.entries.get(id)?.position;
    return position === undefined ? id : String(position);
  });
}
