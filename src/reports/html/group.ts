// One group on the page: what to beware of, counts, stems, decay, saplings, hazards, damage, findings.
import type { DamageRow, FindingRow, GroupPart, HazardRow, KeptRow, StemRow, TallyRow } from '../model.ts';
import {
  entriesText,
  entryNumbers,
  factText,
  factWithEntries,
  html,
  list,
  type Piece,
  table,
  terms,
} from './markup.ts';

export function groupSection(group: GroupPart): Piece {
  const { label, id, block, facts, opening, warnings, tally, stems } = group;
  return html`<section class="group">
    <h3>${id === undefined ? label : `Group ${label}`}</h3>
    ${warnings.length > 0 && warningBox(group)}
    ${terms([{ term: 'Block', fact: block }, ...facts, ...opening])}
    <h4>Stems</h4>
    ${
      stems.length === 0
        ? html`<p><i class="unknown">No stem is recorded here.</i></p>`
        : html`${tallyTable(`${label}: stems recorded, counted`, 'Stems', tally)}${stemTable(label, stems)}`
    }
    <p class="lead">A record of what was cut; it does not say that anything here can be walked under or worked on. The
      <a href="#cautions">cautions</a> hold.</p>
    ${stems.length > 0 && html`<h4>Decay at the stumps</h4>${list(group.decay.map(factWithEntries))}`}
    ${group.plan.length > 0 && html`<h4>Felling plan, and what became of it</h4>${list(group.plan.map(factWithEntries))}`}
    <h4>Saplings and patches to be kept</h4>
    ${keptPieces(group)}
    <h4>Hazards</h4>
    ${
      group.hazards.length === 0
        ? html`<p><i class="unknown">No hazard is recorded. That nobody wrote one down does not say that there is none.</i></p>`
        : hazardTable(label, group.hazards)
    }
    <h4>Damage</h4>
    <p>${factWithEntries(group.damage.summary)}</p>
    ${group.damage.rows.length > 0 && damageTable(label, group.damage.rows)}
    <h4>Findings</h4>
    ${group.findings.length === 0 ? html`<p>None about the woods in this part.</p>` : findingTable(label, group.findings)}
    ${group.notes.length > 0 && html`<h4>Notes and photos</h4>${list(group.notes.map(factWithEntries))}`}
  </section>`;
}

function warningBox({ warnings, label }: GroupPart): Piece {
  return html`<div class="box warn"><strong>Danger recorded in ${label}</strong>${list(warnings.map(factWithEntries))}</div>`;
}

/** Rows that count nothing are left out, except the first, so that a table is never empty. */
function tallyTable(caption: string, things: string, rows: readonly TallyRow[]): Piece {
  const shown = rows.filter(({ count }, index) => count > 0 || index === 0);
  const zero = rows.filter((row) => !shown.includes(row)).map(({ what }) => what);
  return html`${table<TallyRow>(
    caption,
    [
      { head: 'What', kind: 'head', cell: ({ what }) => what },
      { head: things, kind: 'number', cell: ({ count }) => count },
      { head: 'Which', cell: ({ which }) => (which.length === 0 ? 'none' : which.join(', ')) },
      { head: 'Entries', cell: ({ entries }) => entryNumbers(entries) },
    ],
    shown,
  )}${zero.length > 0 && html`<p class="lead">None recorded: ${zero.join('; ')}.</p>`}`;
}

function stemTable(label: string, stems: readonly StemRow[]): Piece {
  return table<StemRow>(
    `${label}: every stem, as entered`,
    [
      { head: 'Stem', kind: 'head', cell: (stem) => stem.label },
      { head: 'Species', cell: ({ species }) => factText(species) },
      { head: 'DBH', cell: ({ dbh }) => factText(dbh) },
      { head: 'Mark', cell: ({ mark }) => factText(mark) },
      { head: 'What happened', cell: ({ happened }) => factText(happened) },
      { head: 'Lay', cell: ({ lay }) => factText(lay) },
      { head: 'Decay at stump', cell: ({ decay }) => factText(decay) },
      { head: 'Entries', cell: ({ entries }) => entryNumbers(entries) },
    ],
    stems,
  );
}

function keptPieces({ label, kept }: GroupPart): Piece {
  if (kept.rows.length === 0)
    return html`<p><i class="unknown">No protected sapling or patch is recorded.</i></p>`;
  return html`${tallyTable(`${label}: saplings and patches, counted`, 'Number', kept.summary)}
  ${table<KeptRow>(
    `${label}: every protected sapling and patch`,
    [
      { head: 'Which', kind: 'head', cell: ({ label: name, is }) => `${name} (${is})` },
      { head: 'Species', cell: ({ species }) => factText(species) },
      { head: 'Size', cell: ({ size }) => factText(size) },
      { head: 'Checks', cell: ({ checks }) => checks.map((check) => html`<div>${factText(check)}</div>`) },
      { head: 'Entries', cell: ({ entries }) => entryNumbers(entries) },
    ],
    kept.rows,
  )}`;
}

function hazardTable(label: string, hazards: readonly HazardRow[]): Piece {
  return table<HazardRow>(
    `${label}: hazards, open ones first`,
    [
      { head: 'Hazard', kind: 'head', cell: ({ what, where }) => `${what}, ${where}` },
      { head: 'State', cell: ({ state }) => stateWord(state) },
      { head: 'Keep away', cell: ({ keepAway }) => factText(keepAway) },
      { head: 'Noted', cell: ({ noted }) => factText(noted) },
      { head: 'Cleared', cell: ({ cleared }) => factText(cleared) },
      { head: 'Entries', cell: ({ entries }) => entryNumbers(entries) },
    ],
    hazards,
  );
}

function damageTable(label: string, damage: readonly DamageRow[]): Piece {
  return table<DamageRow>(
    `${label}: damage`,
    [
      { head: 'To', kind: 'head', cell: ({ to }) => to },
      { head: 'Part', cell: ({ part }) => factText(part) },
      { head: 'Wound area', cell: ({ woundArea }) => factText(woundArea) },
      { head: 'Wound height', cell: ({ woundHeight }) => factText(woundHeight) },
      { head: 'Done by', cell: ({ by }) => factText(by) },
      { head: 'What happened', cell: ({ what, noted }) => html`${factText(what)}, ${noted}` },
      { head: 'Entries', cell: ({ entries }) => entryNumbers(entries) },
    ],
    damage,
  );
}

export function findingTable(label: string, findings: readonly FindingRow[]): Piece {
  return table<FindingRow>(
    `${label}: findings about the woods, open ones first`,
    [
      { head: 'Finding', kind: 'head', cell: ({ sentence }) => sentence },
      { head: 'State', cell: findingState },
      { head: 'What to do', cell: ({ remedy }) => remedy },
      { head: 'Entries', cell: ({ entries }) => entryNumbers(entries) },
    ],
    findings,
  );
}

function findingState({ state, settledBy }: FindingRow): Piece {
  return html`${stateWord(state)}${settledBy !== undefined && ` by ${entriesText([settledBy])}`}`;
}

/** Open things in capitals and bold, so that they stand out without colour. */
function stateWord(state: string): Piece {
  return state === 'open' ? html`<span class="state">OPEN</span>` : html`${state}`;
}
