// The whole page: one file that asks nothing of anybody else, for screen, phone and paper.

import type { Cautions } from '../../felling/index.ts';
import type { BlockPart, Evidence, GroupPart, HarvestReport } from '../model.ts';
import { figureSection } from './figures.ts';
import { groupSection } from './group.ts';
import { factText, factWithEntries, html, type Piece, table, terms } from './markup.ts';
import { recordSection } from './record.ts';
import { styleSheet } from './style.ts';

/** The report as one self-contained HTML file. The drawing of charts is loaded when a page is made. */
export async function renderHtml(report: HarvestReport): Promise<string> {
  const { drawChart, swatch } = await import('../charts/index.ts');
  const { title, madeLocal, program, evidence, moment, logbook, blocks, groups, figures, record } = report;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${styleSheet(evidence)}</style>
</head>
<body>
<header>
<h1>${title}</h1>
<p class="lead">Made ${madeLocal} by ${program}. ${moment.sentences.join(' ')}</p>
</header>
<main>
${evidenceBox(evidence)}
${groups.length > 0 && glance(groups)}
<section><h2>Logbook and prescription</h2>${terms(logbook)}${blocks.map(blockSection)}</section>
${cautionBox(report.cautions)}
<section><h2>Groups</h2>
${groups.length === 0 ? html`<p><i class="unknown">No group is recorded.</i></p>` : groups.map(groupSection)}
</section>
${figureSection(figures, { drawChart, swatch })}
${recordSection(record)}
</main>
<footer>
<p>Log of ${evidence.size} entries, root <span class="root">${evidence.rootInFours}</span></p>
<p>Check with <code>${evidence.command}</code></p>
</footer>
</body>
</html>
`.toString();
}

function evidenceBox({ size, rootInFours, check, command }: Evidence): Piece {
  return html`<section class="box">
    <h2>Tree head</h2>
    <p>Log of ${size} entries, root<span class="root">${rootInFours}</span></p>
    <p>${check}</p>
    <p><code>${command}</code></p>
  </section>`;
}

/** One line per group; counts are of recorded stems. */
function glance(groups: readonly GroupPart[]): Piece {
  const count = (group: GroupPart, what: string) => group.tally.find((row) => row.what === what)?.count ?? 0;
  const dangers = groups.filter(({ warnings }) => warnings.length > 0).map(({ label }) => label);
  return html`<section><h2>At a glance</h2>
  ${dangers.length > 0 && html`<p><strong>Danger is recorded in ${dangers.join(', ')}: read there before anybody goes in.</strong></p>`}
  ${table<GroupPart>(
    'Groups, by the stems that are recorded in them',
    [
      { head: 'Group', kind: 'head', cell: ({ label }) => label },
      { head: 'Opening', cell: ({ opening: [state] }) => (state ? factText(state.fact) : 'none') },
      { head: 'Marked to be cut', kind: 'number', cell: (group) => count(group, 'marked to be cut') },
      { head: 'Felled and down', kind: 'number', cell: (group) => count(group, 'felled and down') },
      { head: 'Hung up', kind: 'number', cell: (group) => count(group, 'felled, still hung up') },
      { head: 'Leave trees standing', kind: 'number', cell: (group) => count(group, 'leave trees standing') },
      { head: 'Dangers recorded', kind: 'number', cell: ({ warnings }) => warnings.length },
      {
        head: 'Open findings',
        kind: 'number',
        cell: ({ findings }) => findings.filter(({ state }) => state === 'open').length,
      },
    ],
    groups,
  )}</section>`;
}

function blockSection({ name, facts, prescription, scope }: BlockPart): Piece {
  return html`<h3>Block ${name}</h3>
    ${terms([...facts, { term: 'Prescription in force', fact: prescription.inForce }, ...prescription.facts])}
    <p>${factWithEntries(scope)}</p>`;
}

function cautionBox({ title, lead, points, end }: Cautions): Piece {
  return html`<section class="box" id="cautions">
    <h2>${title}</h2>
    <p><strong>${lead}</strong></p>
    <ul>${points.map(
      ({ text, basis, source }) => html`<li>${text} <span class="source">${basis}: ${source}</span></li>`,
    )}</ul>
    <p>${end}</p>
  </section>`;
}
