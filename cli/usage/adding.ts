// How a command is added: what all of them have, and what the words of the command line become.
import type { Command } from 'commander';
import { exitHelp } from '../terminal/failure.ts';

type Flags = Record<string, string | boolean | undefined>;
/** Commands name their own flags; commander fills them in. A number is the exit code. */
export type Work = (words: string[], flags: never, version: string) => Promise<unknown>;

export type Adding = Readonly<{
  program: Command;
  /** Says what a command does; loaded only when it is called. */
  on: (command: Command, load: () => Promise<{ work: Work }>) => void;
  /** A command on a logbook, with its examples. */
  command: (usage: string, description: string, examples: readonly string[]) => Command;
  /** The same with the flags for another moment than now. */
  moments: (made: Command) => Command;
}>;

/** @param outcome gets the exit code of the command that was called */
export function adding(program: Command, version: string, outcome: { code: number }): Adding {
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
  return { program, on, command, moments };
}
