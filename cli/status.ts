// gapledger status: entries, head, what is open, what is kept aside, when the last backup was made.
import { headText, type TreeHead } from '../src/log/entry/index.ts';
import type { Aside, BackupMade, LogbookFacts } from '../src/log/store/index.ts';
import { readStand } from '../src/record/index.ts';
import { openFindings } from '../src/stand/index.ts';
import { type CommonOptions, paint, say, sayJson, withLog } from './terminal/index.ts';

const daysBetweenBackups = 7;

type State = Readonly<{
  facts: LogbookFacts;
  name: string | undefined;
  head: TreeHead;
  aside: readonly Aside[];
  backup: BackupMade | undefined;
  backupDue: boolean;
  days: number | undefined;
  unreadable: number;
  open: { hungUp: number; hazards: number; findings: number };
}>;

export async function work(_words: string[], flags: CommonOptions): Promise<void> {
  await withLog(flags, async (log) => {
    const facts = log.facts();
    const head = await log.head();
    const aside = await log.aside();
    const backup = await log.lastBackup();
    const { stand, findings, standings } = await readStand(log);
    const unreadable = [...standings.values()].filter((standing) => standing === 'not readable here').length;
    const hungUp = [...stand.stems.values()].filter(({ status }) => status === 'hung-up').length;
    const hazards = [...stand.hazards.values()].filter(({ clearedBy }) => clearedBy === undefined).length;
    const days = backup === undefined ? undefined : (Date.now() - Date.parse(backup.at)) / 86_400_000;
    const backupDue = days === undefined || days > daysBetweenBackups;
    const open = openFindings(findings).length;
    if (flags.json) {
      return sayJson({
        ...facts,
        head: { ...head, text: headText(head) },
        open: { hungUp, hazards, findings: open },
        aside: aside.map(({ number, receivedAt, issue, conflictsWith }) => ({
          number,
          receivedAt,
          issue,
          conflictsWith,
        })),
        notReadableHere: unreadable,
        lastBackup: backup ?? null,
        backupDue,
      });
    }
    print({
      facts,
      name: stand.logbook?.body.name,
      head,
      aside,
      backup,
      backupDue,
      days,
      unreadable,
      open: { hungUp, hazards, findings: open },
    });
  });
}

function print(state: State): void {
  const { facts, head, aside, backup, unreadable, open } = state;
  say(`${facts.path}: ${state.name ?? 'not opened yet'}, format ${facts.format}`);
  say(`${head.size} ${head.size === 1 ? 'entry' : 'entries'}. Head: ${headText(head)}`);
  if (facts.newer) say('Written by a newer gapledger: it can be read here and not written to.');
  if (unreadable > 0)
    say(`${unreadable} entries are of kinds or versions that this program does not know; they are kept.`);
  say(
    `Open: ${open.hungUp} hung up, ${counted(open.hazards, 'hazard')}, ${counted(open.findings, 'finding')}.`,
  );
  for (const { number, issue, conflictsWith } of aside) {
    say(
      `Kept aside ${number}: ${conflictsWith === undefined ? `${issue.field}: ${issue.remedy}` : `same id as entry ${conflictsWith}, other bytes`}`,
    );
  }
  if (backup === undefined) say(paint.bold('No backup has been made. Make one: gapledger backup FILE'));
  else say(`Last backup: ${backup.at.slice(0, 10)} (${backup.name}), ${backup.head.size} entries.`);
  if (backup && state.backupDue)
    say(paint.bold(`That is ${Math.floor(state.days ?? 0)} days ago. Make another: gapledger backup FILE`));
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
