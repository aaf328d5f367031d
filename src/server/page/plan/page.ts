// The plan page of the desk: what can hurt somebody first, then what is set aside, the order, the map, what can be settled, and what
// each fall puts at risk. It works without a script.
import { comparePlan, type FellingPlan } from '../../../felling/index.ts';
import {
  fellingMap,
  fellingMapPicture,
  html,
  list,
  type Piece,
  planSheet,
  type Sheet,
  type SheetTable,
  sheetTable,
  toldBy,
} from '../../../reports/index.ts';
import {
  dangersIn,
  type Group,
  groupLabel,
  hazardWords,
  type Stand,
  stemLabel,
} from '../../../stand/index.ts';
import { readersOf, systemOf } from '../../plan-query.ts';
import type { Look } from '../../reading.ts';
import { cautionBox, framed } from '../frame.ts';
import { adoptedBox, adoptSection, type MayAdopt } from './adopted.ts';
import { type FormFault, unknownFaults } from './faults.ts';
import { faultBox } from './fields.ts';
import { addressOf, apiQuery, type FormState } from './form.ts';
import { settleForm } from './settle.ts';

export type PlanPage = Readonly<{
  look: Look;
  group: Group;
  state: FormState;
  /** The plan; or why there is none. */
  plan: FellingPlan | undefined;
  fault: FormFault | undefined;
  adopting: Readonly<{ may: MayAdopt; fault: string | undefined }>;
  program: string;
}>;

/** What is wrong with what was typed. */
export function faultsOf({ state, fault }: Pick<PlanPage, 'state' | 'fault'>): readonly FormFault[] {
  return [...(fault !== undefined && fault.fields.length > 0 ? [fault] : []), ...unknownFaults(state)];
}

export function planPage({ look, group, state, plan, fault, adopting, program }: PlanPage): string {
  const { folded, head } = look;
  const label = groupLabel(group);
  const faults = faultsOf({ state, fault });
  const compared = comparePlan(folded, group.id);
  return framed({
    title: `Felling plan of ${label}`,
    program,
    header: html`<h1>Felling plan of ${label} <span class="lead">Computed from ${head.size} entries. Nothing here is recorded until somebody adopts it.</span></h1>
<nav aria-label="On this page"><ul>
<li><a href="/">Start page</a></li>
<li><a href="#order">Order</a></li>
<li><a href="#map">Map</a></li>
<li><a href="#settle">Settle something</a></li>
<li><a href="#risks">What each fall puts at risk</a></li>
<li><a href="#adopt">Adopt</a></li>
</ul></nav>`,
    main: html`${faultBox(faults)}
${openDangers(folded.stand)}
${cautionBox('all')}
${adoptedBox(folded, group, compared)}
${plan === undefined ? noPlan(fault) : planParts(plan, state, folded.stand, toldBy(folded, look.names))}
${settleForm({ state, faults }, plan)}
${plan !== undefined && risks(plan, state, folded.stand)}
${plan !== undefined && adoptSection(state, plan, adopting)}`,
  });
}

/** On the whole property: who walks in may pass by another group. */
export function openDangers(stand: Stand): Piece {
  const { hungUp, hazards } = dangersIn(stand);
  if (hungUp.length + hazards.length === 0) return html``;
  return html`<section class="box warn"><h2>Open now: keep away</h2>${list([
    ...hungUp.map((stem) => `${stemLabel(stem)} is hung up. Get trained help.`),
    ...hazards.map((hazard) => hazardWords(stand, hazard)),
  ])}</section>`;
}

function noPlan(fault: FormFault | undefined): Piece {
  return html`<section id="order"><h2>No plan</h2>
    <p>${
      fault === undefined || fault.fields.length > 0
        ? 'Put right what is wrong above, and plan again.'
        : `From what is recorded no plan can be made. ${fault.says}`
    }</p></section>`;
}

function planParts(
  plan: FellingPlan,
  state: FormState,
  stand: Stand,
  told: ReturnType<typeof toldBy>,
): Piece {
  const system = systemOf(stand);
  const { lead, tables, remarks } = withoutFlags(planSheet(plan, system, told));
  const [order] = tables;
  return html`<section id="order"><h2>Set aside, and the order of felling</h2>
    ${leadPieces(lead)}
    ${order !== undefined && sheetTable(numbered(order))}
    <h3>To read with it</h3>
    ${list(remarks)}
  </section>
  <section id="map"><h2>Map</h2>
    <div class="map" role="region" tabindex="0" aria-label="Map, can be scrolled">${fellingMapPicture(fellingMap(plan, readersOf(stand)))}</div>
    <p>To print and take along: ${mapLink(plan, state, 'pdf')}, ${mapLink(plan, state, 'svg')}. Worksheets: ${
      plan.falls.length === 0
        ? 'none'
        : plan.falls.map(
            ({ stem, label }, at) =>
              html`${at > 0 && ', '}<a href="${addressOf(state, { part: `/${stem}` })}">${label}</a>`,
          )
    }.</p>
  </section>`;
}

/** With the numbers that stand on the map. */
function numbered({ caption, columns, rows }: SheetTable): SheetTable {
  return {
    caption,
    columns: [{ title: 'No.', kind: 'number' }, ...columns],
    rows: rows.map((row, at) => [String(at + 1), ...row]),
  };
}

/** The same words stand on the command line, with the flags that are fields here. */
function withoutFlags({ lead, tables, remarks }: Sheet): Pick<Sheet, 'lead' | 'tables' | 'remarks'> {
  const plain = (line: string) => line.replaceAll(/ \(--[^)]*\)/g, '');
  return { lead: lead.map(plain), tables, remarks: remarks.map(plain) };
}

/** Lines of the sheet that begin with a dash are a list. */
function leadPieces(lead: readonly string[]): Piece {
  const stems = lead.filter((line) => line.startsWith('- ')).map((line) => line.slice(2));
  const others = lead.filter((line) => !line.startsWith('- '));
  const [first, ...rest] = others;
  return stems.length === 0
    ? html`${others.map((line) => html`<p>${line}</p>`)}`
    : html`<div class="box warn"><p><strong>${first}</strong></p>${list(stems)}</div>${rest.map((line) => html`<p>${line}</p>`)}`;
}

function mapLink({ group }: FellingPlan, state: FormState, as: 'pdf' | 'svg'): Piece {
  const query = apiQuery(state);
  query.append('as', as);
  return html`<a href="/api/groups/${group.id}/plan/map?${query.toString()}">map as ${as.toUpperCase()}</a>`;
}

function risks(plan: FellingPlan, state: FormState, stand: Stand): Piece {
  const [, ...tables] = planSheet(plan, systemOf(stand)).tables;
  return html`<section id="risks"><h2>What each fall puts at risk, and what else could be done</h2>
    ${tables.length === 0 ? html`<p>No fall is planned.</p>` : tables.map(sheetTable)}
    <p class="lead"><a href="/api/groups/${plan.group.id}/plan?${apiQuery(state).toString()}">The plan as data</a></p>
  </section>`;
}
