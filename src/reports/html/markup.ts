// Small pieces of HTML. Everything goes through hono's template tag, which escapes what is put in.
import { html as template } from 'hono/html';
import type { EntryNumber, Fact, Term } from '../model.ts';

type Value = Piece | string | number | undefined | false | readonly Value[];
export type Piece = Exclude<ReturnType<typeof template>, Promise<unknown>>;

/** hono's template tag; nothing put in here is awaited, so what comes out is never a promise. */
export function html(strings: TemplateStringsArray, ...values: readonly Value[]): Piece {
  return template(strings, ...values) as Piece;
}

/** "entry 14", "entries 14, 31"; three or more in a row as 14–18. An entry without number shows its id. */
export function entriesText(entries: readonly EntryNumber[]): string {
  if (entries.length === 0) return '';
  return `${entries.length === 1 ? 'entry' : 'entries'}\u00a0${ranges(entries).join(', ')}`;
}

/** The same without the word, for a column that is headed by it. */
export function entryNumbers(entries: readonly EntryNumber[]): string {
  return entries.length === 0 ? 'none' : ranges(entries).join(', ');
}

function ranges(entries: readonly EntryNumber[]): string[] {
  const runs: EntryNumber[][] = [];
  for (const entry of entries) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run && typeof last === 'number' && entry === last + 1) run.push(entry);
    else runs.push([entry]);
  }
  return runs.flatMap((run) => (run.length > 2 ? [`${run[0]}–${run.at(-1)}`] : run.map(entryText)));
}

function entryText(entry: EntryNumber): string {
  return typeof entry === 'number' ? String(entry) : `${entry} (no number yet)`;
}

/** What is said, with the entries it rests on beside it. */
export function factWithEntries(fact: Fact): Piece {
  const entries = entriesText(fact.entries);
  return html`${factText(fact)}${entries !== '' && html` <span class="entries">${entries}</span>`}`;
}

export function factText({ text, known }: Fact): Piece {
  return known ? html`${text}` : html`<i class="unknown">${text}</i>`;
}

export function terms(list: readonly Term[]): Piece {
  if (list.length === 0) return html``;
  return html`<dl>
    ${list.map(({ term, fact }) => html`<div><dt>${term}</dt><dd>${factWithEntries(fact)}</dd></div>`)}
  </dl>`;
}

export type Column<Row> = Readonly<{
  head: string;
  cell: (row: Row) => Value;
  kind?: 'head' | 'number' | 'wide';
}>;

/**
 * A table with caption and scopes. Roles are written out because the narrow layout lays rows out as blocks,
 * which in some browsers takes the meaning of a table away.
 */
export function table<Row>(caption: string, columns: readonly Column<Row>[], rows: readonly Row[]): Piece {
  const cell = (row: Row, column: Column<Row>) =>
    column.kind === 'head'
      ? html`<th scope="row" role="rowheader">${column.cell(row)}</th>`
      : html`<td role="cell" class="${column.kind ?? ''}" data-label="${column.head}"><div>${column.cell(row)}</div></td>`;
  return html`<table role="table">
    <caption>${caption}</caption>
    <thead role="rowgroup"><tr role="row">
      ${columns.map(({ head, kind }) => html`<th scope="col" role="columnheader" class="${kind ?? ''}">${head}</th>`)}
    </tr></thead>
    <tbody role="rowgroup">
      ${rows.map((row) => html`<tr role="row">${columns.map((column) => cell(row, column))}</tr>`)}
    </tbody>
  </table>`;
}

export function list(items: readonly Value[]): Piece {
  return html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`;
}
