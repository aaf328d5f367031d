// How the log was kept, on the page: findings about the record, corrections, late entries, people.
import type { CorrectionRow, FindingCount, LateRow, PersonRow, RecordPart } from '../model.ts';
import { findingTable } from './group.ts';
import { entriesText, factText, factWithEntries, html, list, type Piece, table } from './markup.ts';

export function recordSection(record: RecordPart): Piece {
  return html`<section>
    <h2>How the log was kept</h2>
    ${record.unreadable.map((fact) => html`<p>${factWithEntries(fact)}</p>`)}
    ${
      record.elsewhere.length > 0 &&
      html`<h3>Findings outside the groups</h3>${findingTable('Outside the groups', record.elsewhere)}`
    }
    <h3>Findings about the record</h3>
    ${record.findings.length === 0 ? html`<p>None.</p>` : record.findings.map(findingCount)}
    <h3>Corrections</h3>
    ${
      record.corrections.length === 0
        ? html`<p>None. Nothing in this log was amended or struck.</p>`
        : html`<p class="lead">Nothing is overwritten: the version that was corrected stays in the log under its own number.</p>${correctionTable(record.corrections)}`
    }
    <h3>Late entries</h3>
    ${record.late.length === 0 ? html`<p>None: everything was recorded on the day it happened.</p>` : lateTable(record.late)}
    ${record.notes.length > 0 && html`<h3>Notes and photos about no group</h3>${list(record.notes.map(factWithEntries))}`}
    ${record.issued.length > 0 && html`<h3>Reports issued before</h3>${list(record.issued.map(factWithEntries))}`}
    <h3>People</h3>
    ${record.people.length === 0 ? html`<p><i class="unknown">No person is recorded.</i></p>` : peopleTable(record.people)}
  </section>`;
}

function findingCount({ title, count, remedy, first }: FindingCount): Piece {
  const more = count - first.length;
  return html`<h4>${title} (${count})</h4>
    ${list([...first.map(factWithEntries), more > 0 && `and ${more} more of this kind`].filter(Boolean))}
    <p class="lead">${remedy}</p>`;
}

function correctionTable(corrections: readonly CorrectionRow[]): Piece {
  return table<CorrectionRow>(
    'Corrections, in the order of the log',
    [
      {
        head: 'Correction',
        kind: 'head',
        cell: ({ kind, corrects, correction }) =>
          `${entriesText([corrects])} ${kind} by ${entriesText([correction])}`,
      },
      { head: 'Was', cell: ({ before }) => before },
      {
        head: 'Is now',
        cell: ({ after, changes }) =>
          html`${after}${changes.map((change) => html`<div class="entries">${change}</div>`)}`,
      },
      { head: 'Why', cell: ({ reason }) => reason },
      { head: 'Who and when', cell: ({ who, when }) => `${who}, ${when}` },
      { head: 'Does it hold', cell: ({ holds }) => holds },
    ],
    corrections,
  );
}

function lateTable(late: readonly LateRow[]): Piece {
  return table<LateRow>(
    'Recorded on a later day than it happened',
    [
      { head: 'Entry', kind: 'head', cell: ({ entry }) => entriesText([entry]) },
      { head: 'What', cell: ({ what }) => what },
      { head: 'Happened', cell: ({ happened }) => happened },
      { head: 'Recorded', cell: ({ recorded }) => recorded },
      { head: 'By', cell: ({ who }) => who },
    ],
    late,
  );
}

function peopleTable(people: readonly PersonRow[]): Piece {
  return table<PersonRow>(
    'Everybody who is named in the log or wrote in it',
    [
      { head: 'Name', kind: 'head', cell: ({ name }) => factWithEntries(name) },
      { head: 'Part', cell: ({ part }) => factText(part) },
      { head: 'Entries recorded', kind: 'number', cell: ({ recorded }) => recorded },
    ],
    people,
  );
}
