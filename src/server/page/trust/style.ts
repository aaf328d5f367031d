// The look of the guide: the report's paper and ink, with targets for thumbs and drawings beside the steps; at dusk, the
// colours that docs/look.md has for it.
import { pageStyle } from '../../../reports/index.ts';

export const guideStyle = `${pageStyle}
:root { color-scheme: light dark; --ring: #c2410c; --sheet: #fffef9; }
h1 .lead { display: block; font-size: 1rem; font-weight: 400; letter-spacing: 0; }
.go { display: inline-block; min-height: 56px; padding: .9rem 1.3rem; border: 2px solid var(--ink); border-radius: 6px;
  background: var(--ink); color: var(--paper); font-weight: 600; text-decoration: none; }
.go.quiet { background: none; color: var(--ink); }
.choices { display: flex; flex-wrap: wrap; gap: .8rem; max-width: none; }
.choices .go { flex: 1 1 16rem; text-align: center; }
.steps { list-style: none; counter-reset: step; padding: 0; max-width: none; }
.steps > li { counter-increment: step; display: grid; grid-template-columns: minmax(0, 1fr) 230px; gap: 0 2.5rem; align-items: start;
  padding: 1.2rem 0 1.6rem; border-top: 3px double var(--ink); margin: 0; }
.steps h2 { margin: 0 0 .4rem; padding: 0; border: 0; }
.steps h2::before { content: counter(step) ". "; }
.path { line-height: 1.9; }
.path b { border: 1px solid var(--rule); border-radius: 4px; padding: .1rem .45rem; background: var(--tint); white-space: nowrap; }
.fingerprint { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, max-content)); gap: .1rem 1.4rem; padding: .7rem 1rem;
  border: 1px solid var(--ink); background: var(--tint); font: 600 1rem/1.6 ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; }
.phone { max-width: 100%; height: auto; font: 14px ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; }
.phone .body { fill: var(--sheet); stroke: var(--ink); stroke-width: 2.5; }
.phone .thin { fill: none; stroke: var(--soft); stroke-width: 1.5; stroke-linecap: round; }
.phone .heading { font-size: 17px; font-weight: 600; fill: var(--ink); }
.phone .row { fill: var(--ink); }
.phone .soft { fill: var(--soft); }
.phone .code { fill: var(--ink); font: 14px ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; }
.phone .button { fill: var(--ink); }
.phone .on-button { fill: var(--paper); font-weight: 600; }
.phone .knob { fill: var(--paper); }
.phone .sign, .phone .field { fill: var(--tint); stroke: var(--ink); stroke-width: 1.5; stroke-linejoin: round; }
.phone .ring { fill: none; stroke: var(--ring); stroke-width: 4; stroke-linecap: round; stroke-linejoin: round; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
@media screen and (prefers-color-scheme: dark) {
  :root { --ink: #f4ebda; --soft: #d0c4ad; --rule: #8d8069; --paper: #15120d; --tint: #221d15; --ring: #ffa08c; --sheet: #221d15; }
  html { background: #0b0906; }
}
@media screen and (max-width: 44rem) {
  .go { display: block; text-align: center; }
  .steps > li { grid-template-columns: minmax(0, 1fr); gap: .8rem 0; }
  .phone { justify-self: center; }
}
`;

/** Puts the pairing code of a scanned address on the links that lead on. Without it the code is typed by hand. */
export const carryCode = `if (location.hash.startsWith('#code='))
  for (const link of document.querySelectorAll('a[data-carries-code]')) link.hash = location.hash;
`;
