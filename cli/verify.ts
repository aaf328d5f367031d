// gapledger verify: proves that nothing was changed, or names the first thing that was.
import { headText, parseHead } from '../src/log/entry/index.ts';
import { openLogbook, recallDevice, verifyLogbook } from '../src/log/store/index.ts';
import {
  type CommonOptions,
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
  const remembered = await rememberedHead(path);
  const bar = progress('Checked');
  const result = await verifyLogbook(path, {
    ...(since ? { since: since.head } : {}),
    ...(remembered ? { remembered } : {}),
    progress: bar.at,
  });
  bar.end();
  if (flags.json) sayJson(result);
  else print(result);
  return result.ok ? exitCodes.done : exitCodes.notVerified;
}

/** What this machine remembers of the logbook; a damaged file is for the verification to judge. */
async function rememberedHead(path: string) {
  try {
    const log = await openLogbook(path, { readOnly: true });
    const { logbook } = log.facts();
    await log.close();
    return logbook === undefined ? undefined : recallDevice(path, logbook)?.lastHead;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'missing') throw error;
    return undefined;
  }
}

function print(result: Awaited<ReturnType<typeof verifyLogbook>>): void {
  const { problems, notes } = result;
  for (const { position, sentence } of problems)
    tell(`${position === undefined ? '' : `entry ${position}: `}${sentence}`);
  for (const { device, missing, repeated } of notes.devices) {
    if (missing.length > 0)
      say(`Device …${device.slice(-6)}: its entries ${missing.slice(0, 12).join(', ')} have not arrived.`);
    if (repeated.length > 0)
      say(`Device …${device.slice(-6)}: numbers ${repeated.slice(0, 12).join(', ')} came more than once.`);
  }
  if (notes.erased > 0)
    say(`${notes.erased} ${notes.erased === 1 ? 'row' : 'rows'} of personal data erased, as recorded.`);
  if (notes.aside > 0) say(`${notes.aside} kept aside for a person to look at ("gapledger status").`);
  if (notes.newer)
    say('Written by a newer gapledger; its entries and tree were checked, its other tables were not.');
  if (!result.ok) {
    tell(`Not verified: ${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}.`);
    return;
  }
  say(`Verified: ${result.size} entries, nothing changed since they were recorded.`);
  say(`Head: ${headText(result)}`);
}
