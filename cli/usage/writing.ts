// The commands that begin a logbook and write into it, and the log itself.
import { exitHelp } from '../terminal/failure.ts';
import type { Adding } from './adding.ts';

export function addWriting({ program, on, command }: Adding): void {
  on(
    program
      .command('init <file>')
      .description('Start a logbook.')
      .option('--name <text>', 'what the property is called')
      .option('--zone <zone>', 'IANA time zone of the woods, such as America/New_York')
      .option('--units <units>', 'units of bare numbers: us or metric')
      .option('--crs <code>', 'working CRS, such as EPSG:2264')
      .option('--near <lat,lon>', 'propose a CRS for this place')
      .option('--breast-height <length>', 'height at which diameters are taken')
      .option('--declination <degrees>', 'your own magnetic declination, east positive')
      .option('--by <name>', 'who keeps the logbook')
      .option('--json', 'print JSON')
      .addHelpText(
        'after',
        `\nExamples:\n  gapledger init woods.logbook\n  gapledger init woods.logbook --name "Cold Spring woods" --zone America/New_York --units us --crs EPSG:2264 --by "Ann Weaver"\n  gapledger init woods.logbook --near 35.7121,-81.6834\n\n${exitHelp}`,
      ),
    () => import('../init.ts'),
  );
  on(
    program
      .command('record [kind...]')
      .description('Record one entry, or a file of entries.')
      .helpOption(false)
      .allowUnknownOption()
      .allowExcessArguments(),
    () => import('../record.ts'),
  );
  on(
    command('log', 'Print the entries in the order they came.', [
      'log',
      'log --last 20',
      'log --entry 17',
      'log --kind stem-felled --json',
      'log --copy for-the-phone.jsonl',
    ])
      .option('--last <count>', 'only the last entries')
      .option('--kind <kind>', 'only this kind of entry')
      .option('--entry <number>', 'one entry with everything it says; entries are numbered from 0')
      .option(
        '--copy <file>',
        'write all entries into a file that a phone takes in; names are in it, photos are not',
      ),
    () => import('../log.ts'),
  );
  on(
    program
      .command('demo <file>')
      .description('Make a logbook of an invented woodlot to look round in.')
      .option('--json', 'print JSON')
      .addHelpText('after', `\nExamples:\n  gapledger demo demo.logbook\n\n${exitHelp}`),
    () => import('../demo.ts'),
  );
}
