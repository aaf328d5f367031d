// gapledger status: entries, head, what is open, what is kept aside, when the last backup was made.
import { headText } from '../src/log/entry/index.ts';
import { readStand } from '../src/record/index.ts';
import { openFindings } from '../src/stand/index.ts';
import { type CommonOptions, paint, say, sayJson, withLog } from './terminal/index.ts';

const daysBetweenBackups = 7;

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
    say(`${facts.path}: ${stand.logbook?.body.name ?? 'not opened yet'}, format ${facts.format}`);
    say(`${head.size} entries. Head: ${headText(head)}`);
    if (facts.newer) say('Written by a newer gapledger: it can be read here and not written to.');
    if (unreadable > 0)
      say(`${unreadable} entries are of kinds or versions that this program does not know; they are kept.`);
    say(`Open: ${hungUp} hung up, ${hazards} hazards, ${open} findings.`);
    for (const { number, issue, conflictsWith } of aside) {
      say(
        `Kept aside ${number}: ${conflictsWith === undefined ? `${issue.field}: ${issue.remedy}` : `same id as entry ${conflictsWith}, other bytes`}`,
      );
    }
    if (backup === undefined) say(paint.bold('No backup has been made. Make one: gapledger backup FILE'));
    else say(`Last backup: ${backup.at.slice(0, 10)} (${backup.name}), ${backup.head.size} entries.`);
    if (backup && backupDue)
      say(paint.bold(`That is ${Math.floor(days ?? 0)} days ago. Make another: gapledger backup FILE`));
  });
}
