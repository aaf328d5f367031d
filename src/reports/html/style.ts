// How the report looks: ink on paper, thin rules, one column. No colour carries meaning, so that a
// black-and-white print says the same. The tree head runs along the foot of every printed page (CSS Paged
// Media margin boxes).
import { raw } from 'hono/html';
import type { Evidence } from '../model.ts';
import type { Piece } from './markup.ts';

const screen = `
:root { --ink: #1e211c; --soft: #51564c; --rule: #b9b6a8; --paper: #fdfcf8; --tint: #f3f0e6; }
* { box-sizing: border-box; }
html { background: #e9e6da; }
body { margin: 0 auto; max-width: 62rem; padding: 2.5rem 3.25rem 3.5rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 Charter, "Bitstream Charter", "Iowan Old Style", Georgia, "DejaVu Serif", serif; }
h1, h2, h3, h4 { line-height: 1.2; font-weight: 600; text-wrap: balance; }
h1 { font-size: 2.1rem; margin: 0 0 .35rem; letter-spacing: -.01em; }
h2 { font-size: 1.45rem; margin: 3rem 0 .8rem; padding-top: .55rem; border-top: 3px double var(--ink); }
h3 { font-size: 1.2rem; margin: 2rem 0 .6rem; }
h4 { font-size: 1rem; margin: 1.6rem 0 .4rem; }
h4::first-letter { text-transform: uppercase; }
a { color: inherit; }
p, ul, ol, dl { margin: .5rem 0; max-width: 46rem; }
ul, ol { padding-left: 1.3rem; }
li { margin: .25rem 0; }
.lead { color: var(--soft); }
.entries { font: .8em/1.4 ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; color: var(--soft); white-space: normal; }
.unknown { color: var(--soft); }
code, .root { font-family: ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: .86em; }
code { overflow-wrap: anywhere; }
.root { display: block; line-height: 1.7; word-spacing: .25em; }
dl > div { display: grid; grid-template-columns: 12rem 1fr; gap: 0 1rem; padding: .28rem 0; border-bottom: 1px dotted var(--rule); }
dt { color: var(--soft); }
dd { margin: 0; overflow-wrap: anywhere; }
.box { border: 1px solid var(--ink); background: var(--tint); padding: .7rem 1.1rem .9rem; margin: 1.2rem 0; }
.box > :first-child { margin-top: .2rem; border-top: 0; padding-top: 0; }
.box p, .box ul { max-width: none; }
.warn { border: 3px solid var(--ink); background: none; }
.warn strong { display: block; font-size: 1.05rem; }
.group { border-left: 1px solid var(--rule); box-shadow: -3px 0 0 var(--paper), -4px 0 0 var(--rule); padding-left: 1.4rem; margin: 2rem 0; }
.group > h3 { font-size: 1.35rem; margin-top: 0; }
.source { display: block; font-size: .85em; color: var(--soft); }
.state { font-weight: 700; letter-spacing: .03em; }
table { border-collapse: collapse; width: 100%; margin: .9rem 0 1.3rem; font: .86rem/1.4 ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; font-variant-numeric: tabular-nums; }
caption { text-align: left; padding: 0 0 .35rem; font-weight: 600; }
th, td { text-align: left; vertical-align: top; padding: .34rem .55rem; border-bottom: 1px solid var(--rule); overflow-wrap: break-word; }
thead th { border-top: 1.5px solid var(--ink); border-bottom: 1.5px solid var(--ink); vertical-align: bottom; font-weight: 600; }
tbody tr:last-child > * { border-bottom: 1.5px solid var(--ink); }
.number { text-align: right; }
figure { margin: .9rem 0 1.1rem; max-width: 36rem; }
figure > svg { width: 100%; height: auto; color: var(--ink); font-family: ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; }
figcaption { font: .86rem/1.6 ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; }
.key { white-space: nowrap; margin-right: .7rem; }
.key svg { vertical-align: -1px; }
footer { margin-top: 3rem; padding-top: .6rem; border-top: 3px double var(--ink); font-size: .9rem; }
@media screen and (max-width: 44rem) {
  body { padding: 1.2rem 1rem 2rem; }
  h1 { font-size: 1.6rem; }
  .group { padding-left: .8rem; }
  dl > div { grid-template-columns: 1fr; }
  dt { font-size: .85rem; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  table, caption, tbody, tr, th, td { display: block; }
  tr { border-top: 1.5px solid var(--ink); padding: .35rem 0; }
  tbody tr:last-child { border-bottom: 1.5px solid var(--ink); }
  th, td, tbody tr:last-child > * { border: 0; padding: .12rem 0; }
  tbody th { font-size: 1rem; }
  td { display: grid; grid-template-columns: 7.5rem 1fr; gap: .6rem; }
  td::before { content: attr(data-label); color: var(--soft); }
  .number { text-align: left; }
}`;

const print = `
@media print {
  html, body { background: none; }
  body > footer { display: none; }
  body { max-width: none; padding: 0; font-size: 9.6pt; line-height: 1.4; }
  h1 { font-size: 20pt; } h2 { font-size: 14pt; margin-top: 16pt; } h3, .group > h3 { font-size: 12pt; } h4 { font-size: 10pt; }
  h2, h3, h4, caption { break-after: avoid; }
  tr, .box, dl > div, li, figure { break-inside: avoid; }
  thead { display: table-header-group; }
  table { font-size: 8.2pt; }
  .group { padding-left: 0; border: 0; box-shadow: none; }
  .box { background: none; }
  p, ul, ol, dl { max-width: none; orphans: 3; widows: 3; }
  :root { --soft: #333; --rule: #888; }
}`;

/** The same look for other pages. */
export const pageStyle = `${screen}${print}`;

/** The style sheet, with the tree head in the foot of every page. The head is digits and hex only. */
export function styleSheet({ size, rootInFours }: Evidence): Piece {
  const font = '7pt/1.5 "DejaVu Sans Mono", Menlo, Consolas, monospace';
  const page = `
@page {
  margin: 16mm 15mm 21mm;
  @bottom-left { content: "Log of ${size} entries, root\\A ${rootInFours}"; font: ${font}; white-space: pre; vertical-align: top; padding-top: 3mm; }
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: ${font}; vertical-align: top; padding-top: 3mm; }
}`;
  return raw(page + pageStyle) as Piece;
}
