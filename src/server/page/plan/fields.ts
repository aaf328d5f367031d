// The fields of the form: what they are called, what was typed, and the sentence beside the one that is wrong.
import { html, type Piece } from '../../../reports/index.ts';
import type { FormFault } from './faults.ts';
import type { FormState } from './form.ts';

export type Form = Readonly<{ state: FormState; faults: readonly FormFault[] }>;

type Field = Readonly<{
  name: string;
  /** What it is called; read aloud where a heading shows it already. */
  label: string;
  shown?: boolean;
  help?: string;
  example?: string;
  /** What it holds where nothing was typed. */
  usual?: string;
  numeric?: boolean;
}>;

/** Labels of stems hold what ids must not. */
function idOf(name: string): string {
  return name.replaceAll(/[^A-Za-z0-9-]/g, (letter) => `_${letter.codePointAt(0)?.toString(16)}_`);
}

/** One line of text. */
export function textField(
  form: Form,
  { name, label, shown = true, help, example, usual, numeric }: Field,
): Piece {
  const { typed } = form.state;
  return html`<div class="field">${shown && html`<label for="${idOf(name)}">${label}</label>`}
    <input type="text" id="${idOf(name)}" name="${name}" value="${typed.get(name) ?? usual ?? ''}" autocomplete="off"${
      !shown && html` aria-label="${label}"`
    }${example !== undefined && html` placeholder="${example}"`}${numeric && html` inputmode="decimal"`}${described(form, name, help)}>
    ${helpAndFault(form, name, help)}</div>`;
}

export function tickBox(form: Form, { name, label, shown = true, help }: Field): Piece {
  return html`<div class="field"><label class="tick"><input type="checkbox" id="${idOf(name)}" name="${name}" value="yes"${
    form.state.typed.get(name) === 'yes' && html` checked`
  }${described(form, name, help)}> ${shown ? label : html`<span class="unseen">${label}</span>`}</label>
    ${helpAndFault(form, name, help)}</div>`;
}

export function choiceField(form: Form, { name, label, help }: Field, choices: readonly string[]): Piece {
  const chosen = form.state.typed.get(name) ?? choices[0];
  return html`<div class="field"><label for="${idOf(name)}">${label}</label>
    <select id="${idOf(name)}" name="${name}"${described(form, name, help)}>${choices.map(
      (choice) => html`<option${choice === chosen && html` selected`}>${choice}</option>`,
    )}${chosen !== undefined && !choices.includes(chosen) && html`<option selected>${chosen}</option>`}</select>
    ${helpAndFault(form, name, help)}</div>`;
}

function described({ faults }: Form, name: string, help: string | undefined): Piece {
  const wrong = faults.some(({ fields }) => fields.includes(name));
  const by = [
    ...(wrong ? [`wrong-${idOf(name)}`] : []),
    ...(help === undefined ? [] : [`help-${idOf(name)}`]),
  ];
  return html`${wrong && html` aria-invalid="true"`}${by.length > 0 && html` aria-describedby="${by.join(' ')}"`}`;
}

function helpAndFault({ faults }: Form, name: string, help: string | undefined): Piece {
  const wrong = faults.filter(({ fields }) => fields.includes(name));
  return html`${wrong.length > 0 && html`<p class="wrong" id="wrong-${idOf(name)}">${wrong.map(({ says }) => says).join(' ')}</p>`}${
    help !== undefined && html`<p class="help" id="help-${idOf(name)}">${help}</p>`
  }`;
}

/** All that is wrong, before everything else on the page, each with the way to its field. */
export function faultBox(faults: readonly FormFault[]): Piece {
  if (faults.length === 0) return html``;
  return html`<section class="box warn" role="alert" id="wrong"><h2>This cannot be planned as it was typed</h2>
    <ul>${faults.map(({ says, fields: [field] }) =>
      field === undefined
        ? html`<li>${says}</li>`
        : html`<li>${says} <a href="#${idOf(field)}">Go to the field</a></li>`,
    )}</ul>
    <p>Nothing was recorded, and what was typed is still there.</p></section>`;
}
