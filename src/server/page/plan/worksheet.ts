// The worksheet of one stem as a page to print: notch, hinge and ways out for the aim that it has in the plan.
import {
  comparePlan,
  type FellingPlan,
  type PlannedAside,
  type PlannedFall,
} from '../../../felling/index.ts';
import { html, list, type Piece, sheetTable, worksheetSheet } from '../../../reports/index.ts';
import type { Folded, Group, Stand } from '../../../stand/index.ts';
import { systemOf } from '../../plan-query.ts';
import { cautionBox, framed } from '../frame.ts';
import { adoptedBox } from './adopted.ts';
import { addressOf, type FormState } from './form.ts';
import { openDangers } from './page.ts';

export type WorksheetPage = Readonly<{
  plan: FellingPlan;
  of: PlannedFall | PlannedAside;
  state: FormState;
  group: Group;
  folded: Folded;
  program: string;
}>;

export function worksheetPage({ plan, of, state, group, folded, program }: WorksheetPage): string {
  const { stand } = folded;
  const compared = comparePlan(folded, group.id);
  return framed({
    title: `Worksheet for ${of.label} in ${plan.group.label}`,
    program,
    header: html`<h1>Worksheet for ${of.label} <span class="lead">In the felling plan of ${plan.group.label}.</span></h1>
<nav aria-label="Back"><ul><li><a href="${addressOf(state)}">Felling plan of ${plan.group.label}</a></li></ul></nav>`,
    main: html`${openDangers(stand)}
${cautionBox('all')}
${compared !== undefined && compared.ended.length > 0 && adoptedBox(folded, group, compared)}
${'step' in of ? worksheet(of, stand) : setAside(of)}`,
  });
}

function worksheet(fall: PlannedFall, stand: Stand): Piece {
  const { title, lead, tables, remarks } = worksheetSheet(fall, systemOf(stand));
  return html`<section><h2>${title}</h2>
    ${lead.length > 0 && html`<div class="box warn"><strong>Stop.</strong>${list(lead)}</div>`}
    ${tables.map(sheetTable)}
    ${list(remarks)}
  </section>`;
}

function setAside({ because, remedies }: PlannedAside): Piece {
  return html`<section class="box warn"><h2>No worksheet: it is set aside and not planned</h2>
    <p>${because}</p>${list(remedies)}</section>`;
}
