// gapledger verify: proves that nothing was changed, or names the first thing that was.
import { headText, parseHead, type TreeHead } from '../src/log/entry/index.ts';
import {
  openLogbook,
  recallDevice,
  type SignatureNotes,
  type Verification,
  verifyLogbook,
} from '../src/log/store/index.ts';
import { keyFrom, rowsMayFollow } from '../src/record/index.ts';
import {
  type CommonOptions,
  counted,
  exitCodes,
  Failure,
  logbookPath,
  progress,
  say,
  sayJson,
  tell,
} from './terminal/index.ts';

type Flags = CommonOptions & { since?: string };

export async function work(_words: string[], flags: Flags): Promise<number> {
  const path = logbookPath(flags);
  const since = flags.since === undefined ? undefined : parseHead(flags.since);
  if (since?.ok === false)
    throw new Failure(exitCodes.badInput, `--since "${since.issue.value}": ${since.issue.remedy}.`);
  const { remembered, unsettled } = await askLogbook(path);
  const bar = progress('Checked');
  const result = await verifyLogbook(path, {
    ...(since ? { since: since.head } : {}),
    ...(remembered ? { remembered } : {}),
    keysFrom: keyFrom,
    rowsMayFollow,
    progress: bar.at,
  });
  bar.end();
  if (flags.json) sayJson(result);
  else {
    const known = Math.max(since?.head.size ?? 0, remembered?.size ?? 0);
    print(result, { missing: known - result.size, aside: unsettled ?? result.notes.aside });
  }
  return result.ok ? exitCodes.done : exitCodes.notVerified;
}

/**
 * The head that this machine remembers of the logbook, and how many things set aside nothing has settled; a
 * damaged file is for the verification to judge.
 */
async function askLogbook(path: string): Promise<{ remembered?: TreeHead; unsettled?: number }> {
  try {
    const log = await openLogbook(path, { readOnly: true });
    try {
      const { logbook } = log.facts();
      const remembered = logbook === undefined ? undefined : recallDevice(path, logbook)?.lastHead;
      const aside = await log.aside();
      const unsettled = aside.filter(({ settledBy }) => settledBy === undefined).length;
      return remembered === undefined ? { unsettled } : { remembered, unsettled };
    } finally {
      await log.close();
    }
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'missing') throw error;
    return {};
  }
}

function signaturesSaid({ signed, unsigned }: SignatureNotes): string {
  const others = `${counted(unsigned, 'entry has', 'entries have')} none`;
  return `${counted(signed, 'entry is', 'entries are')} signed; ${others}.`;
}

/** `missing`: how many entries a head from elsewhere counts beyond those that are here. */
function print(result: Verification, { missing: gone, aside }: { missing: number; aside: number }): void {
  const { problems, notes } = result;
  for (const { position, sentence } of problems)
    tell(`${position === undefined ? '' : `entry ${position}: `}${sentence}`);
  for (const { device, missing, repeated } of notes.devices) {
    if (missing.length > 0)
      say(`Device …${device.slice(-6)}: its entries ${missing.slice(0, 12).join(', ')} have not arrived.`);
    if (repeated.length > 0)
      say(`Device …${device.slice(-6)}: numbers ${repeated.slice(0, 12).join(', ')} came more than once.`);
  }
  const { signed, keyUnknown } = notes.signatures;
  if (signed > 0) say(signaturesSaid(notes.signatures));
  if (keyUnknown > 0)
    say(
      `${counted(keyUnknown, 'of them is', 'of them are')} by devices that this logbook has no key for; those cannot be checked.`,
    );
  if (notes.awaited > 0)
    say(
      `${counted(notes.awaited, 'photo has', 'photos have')} not come yet; the phones send them when there is time.`,
    );
  if (notes.erased > 0) say(`${counted(notes.erased, 'row')} of personal data erased, as recorded.`);
  if (aside > 0)
    say(`${counted(aside, 'thing is', 'things are')} set aside for a person to look at: "gapledger status".`);
  if (notes.newer)
    say('Written by a newer gapledger; its entries and tree were checked, its other tables were not.');
  if (!result.ok) {
    if (gone > 0) tell(`${counted(gone, 'entry is', 'entries are')} missing at the end of this logbook.`);
    tell(`Not verified: ${counted(problems.length, 'problem')}.`);
    return;
  }
  say(`Verified: ${counted(result.size, 'entry', 'entries')}, nothing changed since they were recorded.`);
  say(`Head: ${headText(result)}`);
}
