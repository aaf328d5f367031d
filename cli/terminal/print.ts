// Printing: tables for people, JSON for programs, colours only on a terminal.
import Table from 'cli-table3';
import colours from 'picocolors';

export type Column = Readonly<{ title: string; right?: true }>;

const bare = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: '  ',
} as const;

const { bold, dim, red, yellow } = colours.createColors(
  Boolean(process.stdout.isTTY) && process.env.NO_COLOR === undefined,
);
export const paint = { bold, dim, red, yellow };

/** A table without lines; the last column takes what is left of a terminal's width. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const made = new Table({
    chars: bare,
    head: columns.map(({ title }) => bold(title)),
    colAligns: columns.map(({ right }) => (right ? 'right' : 'left')),
    style: { head: [], border: [], compact: true, 'padding-left': 0, 'padding-right': 0 },
    wordWrap: true,
    ...widths(columns, rows),
  });
  made.push(...rows.map((row) => [...row]));
  return made
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
}

function widths(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): { colWidths?: (number | null)[] } {
  const terminal = process.stdout.columns;
  if (!process.stdout.isTTY || terminal === undefined) return {};
  const natural = columns.map(({ title }, index) =>
    Math.max(title.length, ...rows.map((row) => row[index]?.length ?? 0)),
  );
  const others = natural.slice(0, -1).reduce((sum, width) => sum + width + 2, 0);
  const last = natural.at(-1) ?? 0;
  if (others + last <= terminal) return {};
  return { colWidths: [...columns.slice(0, -1).map(() => null), Math.max(20, terminal - others - 1)] };
}

export function say(text: string): void {
  process.stdout.write(`${text}\n`);
}

/** Messages that are not the answer go to standard error. */
export function tell(text: string): void {
  process.stderr.write(`${text}\n`);
}

export function sayJson(value: unknown): void {
  say(JSON.stringify(value, null, 2));
}

/** A line on standard error that shows that something takes its time; silent where nobody watches. */
export function progress(what: string): { at: (done: number, of?: number) => void; end: () => void } {
  const watched = Boolean(process.stderr.isTTY);
  const started = Date.now();
  let shown = 0;
  const at = (done: number, of?: number) => {
    const now = Date.now();
    if (!watched || now - started < 700 || now - shown < 120) return;
    shown = now;
    process.stderr.write(
      `\r${what}: ${done.toLocaleString('en-US')}${of === undefined ? '' : ` of ${of.toLocaleString('en-US')}`} `,
    );
  };
  return { at, end: () => shown > 0 && process.stderr.write('\r\u001b[K') };
}

/** Says on standard error, where somebody watches, what is being done that cannot tell how far it is. */
export function noteAtTerminal(text: string): void {
  if (process.stderr.isTTY) tell(text);
}
