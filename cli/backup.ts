// gapledger backup: one verified file that holds everything.
import { headText } from '../src/log/entry/index.ts';
import { backupLogbook } from '../src/log/store/index.ts';
import { rowsMayFollow } from '../src/record/index.ts';
import {
  type CommonOptions,
  counted,
  noteAtTerminal,
  progress,
  say,
  sayJson,
  withDesk,
} from './terminal/index.ts';

export async function work([file = '']: string[], flags: CommonOptions): Promise<void> {
  noteAtTerminal('Copying and verifying the copy…');
  const bar = progress('Checked');
  const made = await withDesk(flags, ({ log }) =>
    backupLogbook(log, file, new Date().toISOString(), { rowsMayFollow, progress: bar.at }),
  ).finally(bar.end);
  if (flags.json) return sayJson(made);
  say(`Backed up ${counted(made.head.size, 'entry', 'entries')} to ${file}, verified.`);
  say(`Head: ${headText(made.head)}`);
}
