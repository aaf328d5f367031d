// gapledger restore: puts a verified backup in an empty place, as a new device.
import { headText } from '../src/log/entry/index.ts';
import { restoreLogbook } from '../src/log/store/index.ts';
import { rowsMayFollow } from '../src/record/index.ts';
import { counted, noteAtTerminal, progress, say, sayJson } from './terminal/index.ts';

export async function work([backup = '', file = '']: string[], flags: { json?: boolean }): Promise<void> {
  noteAtTerminal('Copying and verifying the copy…');
  const bar = progress('Checked');
  const checks = { rowsMayFollow, progress: bar.at };
  const restored = await restoreLogbook(backup, file, undefined, checks).finally(bar.end);
  if (flags.json) return sayJson({ file, ...restored });
  say(
    `Restored ${counted(restored.head.size, 'entry', 'entries')} to ${file}, verified. This machine is a new device there.`,
  );
  say(`Head: ${headText(restored.head)}`);
  if (restored.ahead) {
    say(
      `This machine saw ${restored.ahead.size} entries there before; those after entry ${restored.head.size - 1} are not in the backup.`,
    );
  }
}
