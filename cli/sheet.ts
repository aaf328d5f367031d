// A sheet of figures on the terminal.
import type { Sheet } from '../src/reports/index.ts';
import { paint, say, table } from './terminal/index.ts';

export function saySheet({ title, lead, tables, remarks }: Sheet): void {
  say(paint.bold(title));
  for (const sentence of lead) say(sentence);
  for (const { caption, columns, rows } of tables) {
    say('');
    say(caption);
    say(
      table(
        columns.map(({ title: column, kind }) => ({
          title: column,
          ...(kind === 'number' ? { right: true as const } : {}),
        })),
        rows,
      ),
    );
  }
  if (remarks.length > 0) say('');
  for (const sentence of remarks) say(sentence);
}
