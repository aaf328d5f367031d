// gapledger status: entries, head, what is open, what is kept aside, when the last backup was made.
import { momentIn } from '../src/events/index.ts';
import { headText, type TreeHead } from '../src/log/entry/index.ts';
import type { Aside, BackupMade, Log, LogbookFacts } from '../src/log/store/index.ts';
import { rowsMayFollow } from '../src/record/index.ts';
import {
  dangersIn,
  type Folded,
  isOverdue,
  openCalls,
  openFindings,
  type Stand,
  timeText,
} from '../src/stand/index.ts';
import { dangerLines } from './cautions.ts';
import { type CommonOptions, counted, paint, say, sayJson, standAt, withLog } from './terminal/index.ts';

const daysBetweenBackups = 7;

type State = Readonly<{
  facts: LogbookFacts;
  stand: Stand;
  head: TreeHead;
  /** What is kept aside and nothing has settled yet. */
  aside: readonly Aside[];
  backup: BackupMade | undefined;
  backupDue: boolean;
  days: number | undefined;
  unreadable: number;
  /** Photos whose entry is here, and they are not. */
  rowsAwaited: number;
  open: { hungUp: number; hazards: number; findings: number };
}>;

export async function work(_words: string[], flags: CommonOptions): Promise<void> {
  await withLog(flags, async (log) => {
    const facts = log.facts();
    const head = await log.head();
    const aside = (await log.aside()).filter(({ settledBy }) => settledBy === undefined);
    const backup = await log.lastBackup();
    const folded = await standAt(log);
    const { stand, findings, standings } = folded;
    const rowsAwaited = await countAwaited(log, folded);
    const unreadable = [...standings.values()].filter((standing) => standing === 'not readable here').length;
    const dangers = dangersIn(stand);
    const hungUp = dangers.hungUp.length;
    const hazards = dangers.hazards.length;
    const days = backup === undefined ? undefined : (Date.now() - Date.parse(backup.at)) / 86_400_000;
    const backupDue = days === undefined || days > daysBetweenBackups;
    const open = openFindings(findings).length;
    if (flags.json) {
      return sayJson({
        ...facts,
        head: { ...head, text: headText(head) },
        open: { hungUp, hazards, findings: open },
        openCalls: openCalls(stand).map((call) => ({ due: call.due, overdue: isOverdue(call, Date.now()) })),
        aside: aside.map(({ number, receivedAt, issue, conflictsWith }) => ({
          number,
          receivedAt,
          issue,
          conflictsWith,
        })),
        notReadableHere: unreadable,
        rowsAwaited,
        lastBackup: backup ?? null,
        backupDue,
      });
    }
    print({
      facts,
      stand,
      head,
      aside,
      backup,
      backupDue,
      days,
      unreadable,
      rowsAwaited,
      open: { hungUp, hazards, findings: open },
    });
  });
}

async function countAwaited(log: Log, { entries }: Folded): Promise<number> {
  const following = [...entries.values()].filter(rowsMayFollow);
  const missing = await log.missingRows(following.flatMap(({ sealed = [] }) => sealed));
  return new Set(missing).size;
}

function print(state: State): void {
  const { facts, stand, head, aside, backup, unreadable, rowsAwaited, open } = state;
  const { name, zone = 'UTC' } = stand.logbook?.body ?? {};
  say(`${facts.path}: ${name ?? 'not opened yet'}, format ${facts.format}`);
  say(`${counted(head.size, 'entry', 'entries')}. Head: ${headText(head)}`);
  if (facts.newer) say('Written by a newer gapledger: it can be read here and not written to.');
  if (unreadable > 0)
    say(
      `${counted(unreadable, 'entry is', 'entries are')} of a kind or version that this program does not know; nothing of it is lost.`,
    );
  say(
    `Open: ${counted(open.hungUp, 'hung-up stem')}, ${counted(open.hazards, 'hazard')}, ${counted(open.findings, 'finding')}.`,
  );
  for (const line of dangerLines(stand)) say(`  ${line}`);
  for (const call of openCalls(stand)) {
    const due = `A call is expected by ${timeText(call.due)}`;
    say(
      isOverdue(call, Date.now())
        ? paint.bold(`${due}: OVERDUE. Make sure that whoever is out is well.`)
        : `${due}.`,
    );
  }
  if (rowsAwaited > 0)
    say(`${counted(rowsAwaited, 'photo has', 'photos have')} not come yet; a phone still holds them.`);
  for (const { number, issue, conflictsWith } of aside) {
    say(
      conflictsWith === undefined
        ? `Kept aside, number ${number}: could not be read. ${issue.field}: ${issue.remedy}`
        : `Kept aside, number ${number}: has the id of entry ${conflictsWith} and other bytes.`,
    );
  }
  if (backup === undefined) say(paint.bold('No backup has been made. Make one: gapledger backup FILE'));
  else
    say(
      `Last backup: ${momentIn(zone, Date.parse(backup.at)).slice(0, 10)} (${backup.name}), ${counted(backup.head.size, 'entry', 'entries')}.`,
    );
  if (backup && state.backupDue)
    say(
      paint.bold(
        `That is ${counted(Math.floor(state.days ?? 0), 'day')} ago. Make another: gapledger backup FILE`,
      ),
    );
}
