// How the emergency card looks: as large as one page allows. All sizes hang on one, which follows the width of the
// paper, so that A5, A4 and Letter each get one page. No colour carries meaning; it is often printed in black.
import { raw } from 'hono/html';
import type { Piece } from './markup.ts';

export const cardStyle = raw(`
@page { margin: 8mm; }
:root { --ink: #1a1c18; --soft: #474c42; --rule: #8d8a7c; --paper: #fdfcf8; }
* { box-sizing: border-box; }
html { background: #e9e6da; font-size: 16px; }
body { margin: 0 auto; max-width: 50rem; padding: 1.2rem 1.4rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.35 ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; line-height: 1.15; margin: 0; }
h2, h3 { font-size: .95rem; line-height: 1.2; margin: 0 0 .1rem; font-weight: 700; }
p, ul { margin: .1rem 0; }
ul { padding-left: 1.1rem; }
section { margin: .55rem 0 0; padding-top: .35rem; border-top: 1px solid var(--rule); break-inside: avoid; }
.lead, .small { color: var(--soft); font-size: .85rem; }
.unknown { color: var(--soft); }
.first { display: flex; gap: 1rem; align-items: baseline; border-top: 3px solid var(--ink); }
.first h2 { font-size: 1.3rem; }
.huge { font-size: 2.6rem; font-weight: 800; line-height: 1.1; margin: 0; }
.place { border: 3px solid var(--ink); padding: .5rem .7rem; }
.place h3 { margin-top: .4rem; }
.large { font-size: 1.7rem; font-weight: 700; line-height: 1.25; font-variant-numeric: tabular-nums; }
.way { font-size: 1.15rem; font-weight: 700; }
.whole { white-space: nowrap; }
.lines { white-space: pre-line; }
.columns { display: grid; grid-template-columns: 1fr 1fr; gap: 0 1.2rem; }
.columns ul { padding-left: 0; list-style: none; }
.warn { border: 3px solid var(--ink); padding: .4rem .7rem; font-weight: 600; }
.alarm { border: 6px solid var(--ink); padding: .5rem .7rem; font-size: 1.2rem; font-weight: 700; }
.alarm h2 { font-size: 1.1rem; }
.cautions { font-size: .8rem; line-height: 1.3; }
footer { margin-top: .5rem; padding-top: .3rem; border-top: 1px solid var(--rule); font-size: .68rem; color: var(--soft); }
footer p { margin: 0; }
code { font-family: ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; }
@media screen and (max-width: 34rem) {
  body { padding: .9rem .9rem 1.5rem; }
  .columns { grid-template-columns: 1fr; }
  .large { font-size: 1.4rem; }
}
@media print {
  html { background: none; font-size: min(2.1vw, 1.42vh); }
  body { max-width: none; padding: 0; background: none; }
  :root { --soft: #333; }
  .cautions ul { columns: 2; column-gap: 1.2rem; }
  .cautions { font-size: .74rem; line-height: 1.25; }
  li { break-inside: avoid; }
}`) as Piece;
