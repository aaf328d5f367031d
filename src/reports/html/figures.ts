// The figures on the page: words, tables, pictures with their key.
import { raw } from 'hono/html';
import type { Chart } from '../charts/model.ts';
import type { FigurePart } from '../model.ts';
import type { SheetTable } from '../sheets/model.ts';
import { html, list, type Piece, table } from './markup.ts';

/** What draws a chart and its key; it comes with a library, so it is handed in by whoever has loaded it. */
type Draw = Pick<typeof import('../charts/index.ts'), 'drawChart' | 'swatch'>;

export function figureSection(figures: readonly FigurePart[], draw: Draw): Piece {
  return html`<section id="figures"><h2>Figures</h2>
    <p class="lead">Computed from the entries; nothing is rounded before it is printed. The JSON form of this report gives
      each figure unrounded, with its method, its source and the entries it rests on.</p>
    ${figures.map((part, index) => figurePiece(part, index + 1, draw))}
  </section>`;
}

function figurePiece({ sheet, chart }: FigurePart, number: number, draw: Draw): Piece {
  const { title, lead, tables, remarks } = sheet;
  return html`<section>
    <h3>${title}</h3>
    ${lead.map((sentence) => html`<p>${sentence}</p>`)}
    ${chart !== undefined && chartPiece(chart, number, draw)}
    ${tables.map(tablePiece)}
    ${remarks.length > 0 && list(remarks)}
  </section>`;
}

function chartPiece(chart: Chart, number: number, { drawChart, swatch }: Draw): Piece {
  const keys =
    chart.is === 'bars'
      ? chart.series.map(({ name, fill }) => [name, fill] as const)
      : chart.series.map(({ name, mark }) => [name, mark] as const);
  return html`<figure>
    ${raw(drawChart(chart, number)) as Piece}
    <figcaption>${chart.title}: ${keys.map(
      ([name, kind]) => html`<span class="key">${raw(swatch(kind, number)) as Piece} ${name}</span> `,
    )}</figcaption>
  </figure>`;
}

/** A table of a sheet. */
export function tablePiece({ caption, columns, rows }: SheetTable): Piece {
  return table<readonly string[]>(
    caption,
    columns.map(({ title, kind }, index) => ({
      head: title,
      cell: (row) => row[index] ?? '',
      ...(kind === 'words' ? {} : { kind }),
    })),
    rows,
  );
}
