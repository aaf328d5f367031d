// The blank tally sheet: one page of big boxes for a pencil and wet fingers, black on white, with the headings under which it
// is typed in afterwards. It fits letter and A4, across the page.
import { html, type Piece } from './markup.ts';

export type TallySheet = Readonly<{
  columns: readonly string[];
  /** Lines on the page. */
  rows: number;
  program: string;
}>;

/** The usual columns; the unit stands in the heading, so that the table is read without being told. */
export const usualColumns: Readonly<Record<'us' | 'metric', readonly string[]>> = {
  us: [
    'Tag',
    'Species',
    'DBH (in)',
    'Mark',
    'Height (ft)',
    'From stake',
    'Azimuth (mag)',
    'Distance (ft)',
    'Note',
  ],
  metric: [
    'Tag',
    'Species',
    'DBH (cm)',
    'Mark',
    'Height (m)',
    'From stake',
    'Azimuth (mag)',
    'Distance (m)',
    'Note',
  ],
};

/** Room that a column needs beside the others. */
const wide: Readonly<Record<string, number>> = { note: 3, species: 2, reason: 3 };

export function renderTallySheet({ columns, rows, program }: TallySheet): string {
  const shares = columns.map((column) => wide[column.toLowerCase()] ?? 1);
  const all = shares.reduce((sum, share) => sum + share, 0);
  const height = `${Math.floor(1500 / rows) / 10}mm`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>Tally sheet</title>
<style>
@page { size: landscape; margin: 11mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 252mm; color: #000; background: #fff; font: 10pt/1.2 system-ui, sans-serif; }
.top { display: flex; gap: 3mm; margin-bottom: 2.5mm; }
.top span { flex: 1; border: 0.4mm solid #000; height: 9mm; padding: 0.6mm 1.2mm; font-size: 8pt; }
.top .short { flex: 0.6; }
table { width: 100%; border-collapse: collapse; table-layout: fixed; }
th, td { border: 0.4mm solid #000; }
th { font-size: 9pt; text-align: left; vertical-align: bottom; padding: 0.6mm 1mm; height: 9mm; }
td { height: ${height}; }
th.number, td.number { width: 7mm; text-align: right; font-size: 8pt; padding-right: 1mm; }
tr { break-inside: avoid; }
p { font-size: 7.5pt; margin: 1.5mm 0 0; }
</style>
</head>
<body>
<div class="top"><span>Block or group</span><span class="short">Day (year-month-day)</span><span>Who</span><span>Weather</span><span class="short">Page</span></div>
<table>
<thead><tr><th class="number"></th>${columns.map((column, index) => heading(column, (shares[index] ?? 1) / all))}</tr></thead>
<tbody>${Array.from({ length: rows }, (_, index) => line(index + 1, columns.length))}</tbody>
</table>
<p>Mark: cut or leave. An empty box is "not measured"; never write 0 or 999 for that. Typed in, the first line is: ${columns.map(csvCell).join(',')} (a column "Date" may be added). Bring it in with gapledger import FILE.csv --dry-run. ${program}</p>
</body>
</html>
`.toString();
}

function heading(column: string, share: number): Piece {
  return html`<th style="width: ${(share * 97).toFixed(1)}%">${column}</th>`;
}

function line(number: number, columns: number): Piece {
  return html`<tr><td class="number">${number}</td>${Array.from({ length: columns }, () => html`<td></td>`)}</tr>`;
}

function csvCell(text: string): string {
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
