// A sheet of figures on the terminal.
import type { Sheet } from '../src/reports/index.ts';
import { paint, say, table } from './terminal/index.ts';

export function saySheet(sheet: Sheet): void {
  const [title = '', ...lines] = sheetLines(sheet);
  say(paint.bold(title));
  for (const line of lines) say(line);
}

/** The sheet as lines of text; a table is one of them. */
export function sheetLines({ title, lead, tables, remarks }: Sheet): string[] {
  return [
    title,
    ...lead,
    ...tables.flatMap(({ caption, columns, rows }) => [
      '',
      caption,
      table(
        columns.map(({ title: column, kind }) => ({
          title: column,
          ...(kind === 'number' ? { right: true as const } : {}),
        })),
        rows,
      ),
    ]),
    ...(remarks.length > 0 ? [''] : []),
    ...remarks,
  ];
}
