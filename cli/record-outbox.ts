// The outbox of a phone, or a copy of a logbook, taken in at the desk: what became of each line, or with --dry-run
// what would.
import type { Receipt } from '../src/log/store/index.ts';
import { type Desk, type OutboxLine, type Received, receive } from '../src/record/index.ts';
import { exitCodes, problemSentence, say, sayJson, tell } from './terminal/index.ts';

type Options = { json?: boolean; dryRun?: boolean };
/** What became of a line, with its number in the file. */
type LineReceipt = Receipt & { line: number };

/** Takes in the lines; gives the exit code. */
export async function receiveOutbox(
  desk: Desk,
  path: string,
  lines: readonly OutboxLine[],
  { json = false, dryRun = false }: Options,
): Promise<number> {
  const received = await receive(
    desk.log,
    lines.map(({ incoming }) => incoming),
    new Date(desk.outside.now()).toISOString(),
    { dryRun },
  );
  const receipts = received.receipts.map((receipt, index) => ({
    line: lines[index]?.number ?? index + 1,
    ...receipt,
  }));
  if (json) sayJson(dryRun ? foreseen(received, receipts) : { ...received, receipts });
  else {
    say(`${path}: ${summary(received, dryRun)}`);
    if (dryRun) for (const receipt of receipts) say(foreseenSentence(receipt));
    else for (const receipt of receipts) tellOfTrouble(receipt);
  }
  if (received.conflicts > 0) return exitCodes.conflict;
  return received.unreadable > 0 ? exitCodes.badInput : exitCodes.done;
}

function summary({ recorded, already, conflicts, unreadable }: Received, dryRun: boolean): string {
  const counts = `${recorded} ${dryRun ? 'would be recorded' : 'recorded'}, ${already} already recorded, ${conflicts} in conflict, ${unreadable} unreadable.`;
  return dryRun ? `${counts} Nothing was recorded.` : counts;
}

/** Positions and numbers aside are given when they are taken, and not before. */
function foreseen({ recorded, already, conflicts, unreadable }: Received, receipts: readonly LineReceipt[]) {
  return {
    dryRun: true,
    recorded,
    already,
    conflicts,
    unreadable,
    lines: receipts.map(({ line, ...receipt }) => ({
      line,
      outcome: receipt.outcome,
      ...('id' in receipt ? { id: receipt.id } : {}),
      ...('issue' in receipt ? { issue: receipt.issue } : {}),
    })),
  };
}

function foreseenSentence(receipt: LineReceipt): string {
  const line = `line ${receipt.line}:`;
  switch (receipt.outcome) {
    case 'recorded':
      return `${line} would be recorded.`;
    case 'already-recorded':
      return `${line} is recorded already, as entry ${receipt.position}.`;
    case 'conflict':
      return `${line} has the id of entry ${receipt.position} and other bytes; both would be kept.`;
    case 'unreadable':
      return `${line} ${problemSentence(receipt.issue)}. It would be kept aside.`;
  }
}

function tellOfTrouble(receipt: LineReceipt): void {
  if (receipt.outcome === 'unreadable')
    tell(`line ${receipt.line}: ${problemSentence(receipt.issue)}. Kept aside as ${receipt.aside}.`);
  if (receipt.outcome === 'conflict')
    tell(
      `line ${receipt.line}: entry ${receipt.position} has the same id and other bytes. Both are kept; aside ${receipt.aside}.`,
    );
}
