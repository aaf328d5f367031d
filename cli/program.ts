// The program: runs a command line and turns what went wrong into one line and an exit code. The commands and their
// flags are in usage/.
import { Command, CommanderError } from 'commander';
import { exitCodes, exitHelp, Failure } from './terminal/failure.ts';
import { addImporting, adding, addKeeping, addLooking, addPhones, addWriting } from './usage/index.ts';

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

  const to = adding(program, version, outcome);
  addWriting(to);
  addImporting(to);
  addLooking(to);
  addKeeping(to);
  addPhones(to);
  return program;
}
