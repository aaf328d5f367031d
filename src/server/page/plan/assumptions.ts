// Every number that the plan is computed with and that nobody measured: what it means, what it rests on, and a field to change it.
import {
  ASSUMPTION_NAMES,
  ASSUMPTIONS,
  type Assumption,
  type AssumptionName,
} from '../../../felling/index.ts';
import { html, type Piece } from '../../../reports/index.ts';
import { type Form, textField } from './fields.ts';
import { assumptionField, usualValue } from './form.ts';

/** In the order of the page; a name begins with one of the beginnings. What fits nowhere comes last. */
const CHAPTERS: readonly (readonly [title: string, beginnings: RegExp])[] = [
  ['Direction and length of a fall', /^(?:directionError|widestDirection|lengthError|leanError|leanUpper)/],
  ['What nobody measured', /^(?:crownBase|crownRadius|leaveTreeDbh|uprightLean)/],
  ['Where a stem may be aimed', /^(?:aimFrom|sideLean|wedge|kerf|winch|uphill)/],
  ['Hanging up', /^(?:bole|crownHolds|crownOverlap|crownCap|brokenOver|hangUp|tolerance)/],
  ['What a loss counts', /^(?:under|leaveTree|crownScrape|patch)/],
  ['Lines, structures and dangers', /^(?:structure|road|trail|powerLine|water|property|hazard(?!Lengths))/],
  ['Distances and ways out', /^(?:workPlace|hazardLengths|escape)/],
  ['Where stems come to lie', /^(?:roll|cross)/],
  ['At the stump', /^(?:hinge|stump|leastHinge)/],
];
const REST = 'Other';

export function assumptionSection(form: Form): Piece {
  const changed = ASSUMPTION_NAMES.filter((name) => form.state.typed.has(assumptionField(name)));
  const isWrong = form.faults.some(({ fields }) => fields.some((field) => field.startsWith('assume.')));
  return html`<details class="assumptions"${isWrong && html` open`}>
    <summary>Assumptions: ${ASSUMPTION_NAMES.length} numbers that nobody measured here, ${
      changed.length === 0 ? 'all as usual' : `${changed.length} changed`
    }</summary>
    <p>Each is a guess, common practice, or a rule with its source, as it says. Change one where you know better; an empty
      field takes the usual number. What was changed is printed with the plan and kept with it.</p>
    ${chapters().map(
      ([title, names]) => html`<fieldset><legend>${title}</legend>
      <div class="fields">${names.map((name) => assumption(form, name))}</div></fieldset>`,
    )}</details>`;
}

function chapters(): [string, AssumptionName[]][] {
  const by = new Map<string, AssumptionName[]>(
    [...CHAPTERS.map(([title]) => title), REST].map((title) => [title, []]),
  );
  for (const name of ASSUMPTION_NAMES) {
    const title = CHAPTERS.find(([, beginnings]) => beginnings.test(name))?.[0] ?? REST;
    by.get(title)?.push(name);
  }
  return [...by].filter(([, names]) => names.length > 0);
}

function assumption(form: Form, name: AssumptionName): Piece {
  const { value, unit, least, most, says, ...basis }: Assumption = ASSUMPTIONS[name];
  const { own } = form.state;
  const recorded = own.find((one) => one.name === name);
  const usually = `Usually ${value}, from ${least} to ${most}.`;
  return textField(form, {
    name: assumptionField(name),
    label: `${inWords(name)} (${unit})`,
    usual: String(usualValue(name, own)),
    numeric: true,
    help: [
      says,
      usually,
      basisWords(basis),
      ...(recorded === undefined
        ? []
        : [`Recorded for who fells by it as ${recorded.value}: ${recorded.reason}`]),
    ].join(' '),
  });
}

function basisWords({ basis, source }: Pick<Assumption, 'basis' | 'source'>): string {
  switch (basis) {
    case 'source':
      return `Source: ${source ?? 'not named'}.`;
    case 'common practice':
      return 'Common practice, no source.';
    case 'guess':
      return 'Our own guess, no source.';
  }
}

/** "directionErrorPerLean" as "Direction error per lean". */
function inWords(name: string): string {
  const words = name.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1).replaceAll(' dbh', ' DBH');
}
