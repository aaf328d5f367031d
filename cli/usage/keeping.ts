// The commands that keep a logbook whole: checking it, copying it, getting it back.
import { exitHelp } from '../terminal/failure.ts';
import type { Adding } from './adding.ts';

export function addKeeping({ program, on, command }: Adding): void {
  on(
    command('verify', 'Check that nothing in the logbook was changed.', [
      'verify',
      'verify --since 214:9f2c…',
    ]).option('--since <head>', 'a head written down earlier, SIZE:ROOT'),
    () => import('../verify.ts'),
  );
  on(
    command('status', 'Say where the logbook stands: entries, head, open things, last backup.', [
      'status',
      'status --json',
    ]),
    () => import('../status.ts'),
  );
  on(
    command('backup <file>', 'Write one verified file that holds everything.', [
      'backup /media/stick/woods-2026-03-14.logbook',
    ]),
    () => import('../backup.ts'),
  );
  on(
    program
      .command('restore <backup> <file>')
      .description('Put a verified backup in an empty place, as a new device.')
      .option('--json', 'print JSON')
      .addHelpText(
        'after',
        `\nExamples:\n  gapledger restore /media/stick/woods-2026-03-14.logbook woods.logbook\n\n${exitHelp}`,
      ),
    () => import('../restore.ts'),
  );
}
