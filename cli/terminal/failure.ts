// How commands fail: one line for the person, one code for the shell.

/** Exit codes, as listed in the help. */
export const exitCodes = {
  done: 0,
  other: 1,
  badInput: 2,
  notVerified: 3,
  conflict: 4,
  noLogbook: 5,
} as const;

export const exitHelp = `Exit codes:
  0  done
  1  anything else that went wrong
  2  bad input, or a question that was not answered
  3  verification failed
  4  conflict: the same entry id with other bytes
  5  logbook missing, locked or unreadable`;

/** Ends a command with a sentence on standard error and an exit code. */
export class Failure extends Error {
  readonly code: number;
  /** The same for programs; printed with --json. */
  readonly details: unknown;

  constructor(code: number, sentence: string, details?: unknown) {
    super(sentence);
    this.name = 'Failure';
    this.code = code;
    this.details = details;
  }
}

/** What is wrong with one thing that was typed: what it is called, what was written, what to do. */
export function problemSentence(
  { field, value, remedy }: Readonly<{ field: string; value: string; remedy: string }>,
  name: string = field,
): string {
  return `${name}${value === '' ? '' : ` "${value}"`}: ${remedy}`;
}
