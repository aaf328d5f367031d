// The start page: what can hurt somebody first, then what is open, then the groups, then where everything is.
// It works without a script and asks nobody else for anything.
import {
  factText,
  factWithEntries,
  type HarvestReport,
  html,
  list,
  type Piece,
  table,
} from '../../reports/index.ts';
import {
  dangersIn,
  type GroupView,
  isAboutRecord,
  openFindings,
  type Stand,
  viewGroup,
  words,
} from '../../stand/index.ts';
import type { Look } from '../reading.ts';
import { cautionBox, framed } from './frame.ts';
import { linkSection } from './links.ts';

export type StartPage = Readonly<{
  look: Look;
  /** The harvest report on the same stand; the page takes dangers, blocks and evidence from it. */
  report: HarvestReport;
  program: string;
  /** Whether the field page is there to be opened. */
  field: boolean;
}>;

/** The start page as HTML. */
export function startPage({ look, report, program, field }: StartPage): string {
  const { stand, findings } = look.folded;
  const name = stand.logbook?.body.name ?? 'Empty logbook';
  const views = [...stand.groups.values()].map((group) => viewGroup(stand, findings, group));
  return framed({
    title: `${name}: logbook`,
    header: html`<h1>${name} <span class="lead">Logbook of ${look.head.size} entries. Shows everything that is recorded.</span></h1>
<nav aria-label="On this page"><ul>
<li><a href="#open">Open findings</a></li>
<li><a href="#groups">Groups</a></li>
<li><a href="#head">Tree head</a></li>
<li><a href="#more">Reports, layers, data</a></li>
</ul></nav>`,
    main: html`${dangerBox(report)}
${cautionBox('lead')}
${openSection(look)}
${blockSection(report)}
${groupSection(stand, views)}
${headSection(report)}
${linkSection(stand.logbook?.body.crs, field)}`,
    program,
  });
}

/** Hung-up stems and open hazards, group by group. */
function dangerBox({ groups }: HarvestReport): Piece {
  const dangerous = groups.filter(({ warnings }) => warnings.length > 0);
  if (dangerous.length === 0)
    return html`<div class="box"><p><strong>No hung-up stem and no open hazard is recorded.</strong> That nobody wrote one
      down does not say that there is none.</p></div>`;
  return html`<div class="box warn">${dangerous.map(
    ({ label, warnings }) =>
      html`<strong>Danger recorded in ${label}</strong>${list(warnings.map(factWithEntries))}`,
  )}</div>`;
}

/** How many findings are written out here; the rest is in the report. */
const mostShown = 12;

function openSection({ folded: { findings } }: Look): Piece {
  const open = openFindings(findings);
  const aboutRecord = findings.filter(isAboutRecord).length;
  const rest = open.length - mostShown;
  return html`<section id="open">
    <h2>Open findings</h2>
    ${
      open.length === 0
        ? html`<p>None about the woods.</p>`
        : list(
            open
              .slice(0, mostShown)
              .map(({ sentence, remedy }) => html`${sentence} <span class="remedy">${remedy}</span>`),
          )
    }
    ${rest > 0 && html`<p>And ${rest} more, in the <a href="/reports/harvest">harvest report</a>.</p>`}
    <p class="lead">${aboutRecord} about how the log was kept, such as late entries and corrections.
      <a href="/api/findings">All findings as data</a></p>
  </section>`;
}

function groupSection(stand: Stand, views: readonly GroupView[]): Piece {
  return html`<section id="groups">
    <h2>Groups</h2>
    ${
      views.length === 0
        ? html`<p><i class="unknown">No group is recorded.</i></p>`
        : table<GroupView>(
            'Stems that are recorded in each group; no census of a block',
            [
              {
                head: 'Group',
                kind: 'head',
                cell: ({ group }) => html`<a href="/reports/harvest?group=${group.id}">${group.label}</a>`,
              },
              { head: 'Opening', cell: ({ group }) => words(group.opening) },
              {
                head: 'Felling plan',
                cell: ({ group, standingCut }) =>
                  group.opening === 'closed' || standingCut.length === 0
                    ? 'none to make'
                    : html`<a href="/groups/${group.id}/plan">Plan ${group.label}</a>`,
              },
              {
                head: 'Hung up',
                kind: 'number',
                cell: ({ group }) => danger(dangersIn(stand, group.id).hungUp.length),
              },
              {
                head: 'Open hazards',
                kind: 'number',
                cell: ({ group }) => danger(dangersIn(stand, group.id).hazards.length),
              },
              { head: 'Open findings', kind: 'number', cell: (view) => view.openFindings.length },
              { head: 'Marked to be cut', kind: 'number', cell: ({ markedCut }) => markedCut.length },
              { head: 'Of these standing', kind: 'number', cell: ({ standingCut }) => standingCut.length },
              { head: 'Felled and down', kind: 'number', cell: ({ felled }) => felled.length },
              { head: 'Marked to stay', kind: 'number', cell: ({ markedLeave }) => markedLeave.length },
              {
                head: 'Saplings',
                kind: 'number',
                cell: ({ saplings, patches }) => saplings.length + patches.length,
              },
            ],
            mostUrgentFirst(stand, views),
          )
    }
  </section>`;
}

/** Bold where there is one. */
function danger(count: number): Piece {
  return count === 0 ? html`0` : html`<span class="state">${count}</span>`;
}

/** Groups where somebody can be hurt come first, then those with open findings, then in their own order. */
function mostUrgentFirst(stand: Stand, views: readonly GroupView[]): GroupView[] {
  const dangers = ({ group }: GroupView) => {
    const { hungUp, hazards } = dangersIn(stand, group.id);
    return hungUp.length + hazards.length;
  };
  return [...views].sort((a, b) => dangers(b) - dangers(a) || b.openFindings.length - a.openFindings.length);
}

function blockSection({ blocks }: HarvestReport): Piece {
  if (blocks.length === 0) return html``;
  return html`<section>
    <h2>Blocks</h2>
    ${blocks.map(
      ({ name, prescription, scope }) => html`<h3>${name}</h3>
      <p>Prescription: ${factText(prescription.inForce)}</p>
      <p class="lead">${factText(scope)}</p>`,
    )}
  </section>`;
}

function headSection({ evidence }: HarvestReport): Piece {
  return html`<section id="head">
    <h2>Tree head</h2>
    <div class="box">
      <p>Log of ${evidence.size} entries, root<span class="root">${evidence.rootInFours}</span></p>
      <p>Kept elsewhere, this line shows later that nothing up to here was changed: the command below fails if any of the
        entries counted here was altered, removed or put in another order.</p>
      <p><code>${evidence.command}</code></p>
    </div>
  </section>`;
}
