// The commands and their flags. Each command's work is loaded only when it is called.
import { Command, CommanderError } from 'commander';
import { exitCodes, exitHelp, Failure } from './terminal/failure.ts';

type Flags = Record<string, string | boolean | undefined>;
/** Commands name their own flags; commander fills them in. A number is the exit code. */
type Work = (words: string[], flags: never, version: string) => Promise<unknown>;

/** Runs a command line; gives the exit code. */
export async function run(words: readonly string[], version: string): Promise<number> {
  // Whoever reads along may stop early, as "head" does; that is no failure.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
  const outcome = { code: exitCodes.done as number };
  const program = build(version, outcome);
  try {
    if (words.length === 0) program.outputHelp();
    else await program.parseAsync([...words], { from: 'user' });
    return outcome.code;
  } catch (error) {
    return fail(error, words.includes('--json'));
  }
}

function fail(error: unknown, json: boolean): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.badInput;
  const { code, sentence, details } = failureOf(error);
  process.stderr.write(`${sentence}\n`);
  if (json) process.stdout.write(`${JSON.stringify(details ?? { error: sentence }, null, 2)}\n`);
  return code;
}

function failureOf(error: unknown): { code: number; sentence: string; details?: unknown } {
  if (error instanceof Failure) return { code: error.code, sentence: error.message, details: error.details };
  const sentence = error instanceof Error ? error.message : String(error);
  // LogbookError and PlaceError are told by name, so that they need not be loaded here.
  const name = error instanceof Error ? error.name : '';
  if (name === 'LogbookError') {
    const kind = (error as { code?: unknown }).code;
    const other = kind === 'exists' || kind === 'full' || kind === 'input-output';
    return {
      code: kind === 'exists' ? exitCodes.badInput : other ? exitCodes.other : exitCodes.noLogbook,
      sentence,
    };
  }
  if (name === 'PlaceError') return { code: exitCodes.badInput, sentence };
  return { code: exitCodes.other, sentence: `gapledger failed: ${sentence}` };
}

export function build(version: string, outcome: { code: number }): Command {
  const program = new Command('gapledger')
    .description(
      'The harvest logbook of somebody who marks, cuts and answers for their own woods, one small opening at a time.',
    )
    .version(`gapledger ${version}`, '-V, --version', 'print the version')
    .exitOverride()
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .showHelpAfterError('("gapledger --help" lists the commands)')
    .addHelpText(
      'after',
      `
Examples:
  gapledger init woods.logbook --name "Cold Spring woods" --zone America/New_York --units us --crs EPSG:2264 --by "Ann Weaver"
  gapledger record stem-marked --logbook woods.logbook --mark cut --tag A12 --species "scarlet oak" --dbh 14.2
  gapledger stand --logbook woods.logbook
  gapledger verify --logbook woods.logbook

GAPLEDGER_LOGBOOK names the logbook where --logbook is left out.

${exitHelp}`,
    );

  const on = (command: Command, load: () => Promise<{ work: Work }>) =>
    command.action(async (...given: unknown[]) => {
      const { work } = await load();
      const words = given
        .slice(0, -2)
        .flatMap((word) =>
          Array.isArray(word) ? (word as string[]) : typeof word === 'string' ? [word] : [],
        );
      const code = await work(words, command.opts<Flags>() as never, version);
      if (typeof code === 'number') outcome.code = code;
    });
  const command = (usage: string, description: string, examples: readonly string[]) =>
    program
      .command(usage)
      .description(description)
      .option('--logbook <file>', 'the logbook (or GAPLEDGER_LOGBOOK)')
      .option('--json', 'print JSON')
      .addHelpText(
        'after',
        `\nExamples:\n${examples.map((example) => `  gapledger ${example}`).join('\n')}\n\n${exitHelp}`,
      );
  const moments = (made: Command) =>
    made
      .option('--at <time>', 'as it was at this time, by what is known now')
      .option(
        '--known-at <size-or-time>',
        'by what the logbook held: its first 40 entries (numbers 0 to 39) for 40, or what it had at this time',
      );

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
    () => import('./init.ts'),
  );
  on(
    program
      .command('record [kind...]')
      .description('Record one entry, or a file of entries.')
      .helpOption(false)
      .allowUnknownOption()
      .allowExcessArguments(),
    () => import('./record.ts'),
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
    () => import('./log.ts'),
  );
  on(
    moments(
      command('stand', 'Print the stand as it is, or was.', [
        'stand',
        'stand --group G1',
        'stand --at "2026-03-14 14:30"',
        'stand --by class',
        'stand --by species --block "North cove" --since 2026-01-01',
        'stand --known-at 120 --json',
      ]),
    )
      .option('--group <group>', 'only this group')
      .option('--by <rows>', 'before, removed, lost and left, in rows by class, species or group')
      .option('--block <block>', 'with --by: only this block')
      .option('--since <time>', 'with --by: what was cut or lost before that time was not there')
      .option(
        '--floor <dbh>',
        'with --by: smallest DBH that is counted; the tally floor of the block if left out',
      )
      .option('--units <units>', "with --by: us or metric; the logbook's own if left out"),
    () => import('./stand.ts'),
  );
  on(
    moments(
      command('findings', 'Print what an auditor would ask about.', [
        'findings',
        'findings --group G1',
        'findings --all',
      ]),
    )
      .option('--group <group>', 'only this group')
      .option('--all', 'findings about the record one by one, and settled ones too'),
    () => import('./findings.ts'),
  );
  on(
    moments(
      command('replay <group>', 'Step through a group: what happened, what stood, what was at risk.', [
        'replay G1',
        'replay G1 --step',
      ]),
    ).option('--step', 'wait for Enter after each entry'),
    () => import('./replay.ts'),
  );
  on(
    moments(
      command('export [layer...]', 'Write map layers for desktop GIS.', [
        'export --out layers',
        'export stems lays --crs EPSG:2264 --out layers',
      ]),
    )
      .option('--out <folder>', 'where to write them', 'layers')
      .option(
        '--crs <code>',
        'projected, in this CRS; "working" for the logbook\'s own; left out: longitude and latitude (RFC 7946)',
      ),
    () => import('./export.ts'),
  );
  on(
    moments(
      command('report [which]', 'Write the harvest report, or the emergency card to carry.', [
        'report --out harvest.html',
        'report --group G1 --format json --out g1.json',
        'report --out harvest.html --issue "county forester"',
        'report emergency-card --out card.html',
        'report emergency-card --block "North cove" --out card.html',
      ]),
    )
      .option('--group <group>', 'only this group; for the harvest report')
      .option('--block <block>', 'what holds for this block; for the emergency card')
      .option('--format <format>', 'html or json; by the ending of --out if left out')
      .option('--out <file>', 'where to write it; standard output if left out')
      .option('--issue <to>', 'record that it was issued, and to which office')
      .option('--by <person>', 'with --issue: who issues it; you if left out'),
    () => import('./report.ts'),
  );
  on(
    command('verify', 'Check that nothing in the logbook was changed.', [
      'verify',
      'verify --since 214:9f2c…',
    ]).option('--since <head>', 'a head written down earlier, SIZE:ROOT'),
    () => import('./verify.ts'),
  );
  on(
    command('status', 'Say where the logbook stands: entries, head, open things, last backup.', [
      'status',
      'status --json',
    ]),
    () => import('./status.ts'),
  );
  on(
    command('backup <file>', 'Write one verified file that holds everything.', [
      'backup /media/stick/woods-2026-03-14.logbook',
    ]),
    () => import('./backup.ts'),
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
    () => import('./restore.ts'),
  );
  on(
    command('serve', 'Start the server on this machine, and with --lan for phones in its net.', [
      'serve',
      'serve --port 4747',
      'serve --lan',
      'serve --lan --role reader --address 192.168.1.10',
      'serve --lan --cert woods.example.crt --key woods.example.key',
    ])
      .option('--port <number>', 'port on this machine; 0 takes any (4747 if left out)')
      .option('--or-next', 'take another port when that one is taken')
      .option(
        '--lan',
        'let paired phones in the net of this computer in, over HTTPS, and show a code for one',
      )
      .option('--tls-port <number>', 'with --lan: port for HTTPS (4748 if left out)')
      .option(
        '--role <role>',
        'with --lan: role of the next device: reader, recorder or keeper (recorder if left out)',
      )
      .option(
        '--address <address>',
        'with --lan: where phones are sent, where this computer has several addresses',
      )
      .option('--cert <file>', 'with --lan: your own certificate chain (PEM) instead of the local authority')
      .option('--key <file>', 'with --lan: the private key of --cert (PEM)')
      .option('--by <person>', 'with --lan: in whose name pairing is recorded; you if left out'),
    () => import('./serve.ts'),
  );
  on(
    command('devices [words...]', 'List the paired devices, or revoke one.', [
      'devices',
      'devices --json',
      'devices revoke "Ann\'s phone" --reason "lost in the woods"',
    ])
      .option('--reason <text>', 'with revoke: why')
      .option('--by <person>', 'with revoke: who revokes it; you if left out'),
    () => import('./devices.ts'),
  );
  on(
    program
      .command('field-page')
      .description('Copy the field page for a host with HTTPS; entries then go by file.')
      .option('--to <folder>', 'where to copy it')
      .option('--json', 'print JSON')
      .addHelpText('after', `\nExamples:\n  gapledger field-page --to public/woods\n\n${exitHelp}`),
    () => import('./field-page.ts'),
  );
  on(
    program
      .command('demo <file>')
      .description('Make a logbook of an invented woodlot to look round in.')
      .option('--json', 'print JSON')
      .addHelpText('after', `\nExamples:\n  gapledger demo demo.logbook\n\n${exitHelp}`),
    () => import('./demo.ts'),
  );
  return program;
}
