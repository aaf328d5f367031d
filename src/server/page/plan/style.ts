// What only the plan page needs of the style sheet.
export const planStyle = `
form { max-width: none; }
fieldset { border: 1px solid var(--rule); margin: 1rem 0; padding: .4rem 1rem .8rem; }
legend { font-weight: 600; padding: 0 .3rem; }
.fields { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(17rem, 100%), 1fr)); gap: .8rem 1.6rem; }
.field > label { display: block; font-weight: 600; }
.field .tick { display: inline-flex; align-items: center; gap: .5rem; min-height: 2.75rem; }
input, select, button { font: inherit; color: inherit; background: #fff; border: 1px solid var(--ink); border-radius: 2px; }
input[type="text"], select { width: 100%; min-height: 2.75rem; padding: .3rem .5rem; }
td input[type="text"] { min-width: 5rem; }
input[type="checkbox"] { width: 1.4rem; height: 1.4rem; accent-color: var(--ink); }
input[aria-invalid], select[aria-invalid] { border: 3px solid var(--ink); }
button { min-height: 2.75rem; padding: .3rem 1.4rem; font-weight: 700; background: var(--ink); color: var(--paper); cursor: pointer; }
button + a { margin-left: 1.2rem; display: inline-block; padding: .5rem 0; }
.help { font-size: .88rem; color: var(--soft); margin: .15rem 0 0; }
.wrong { font-weight: 700; margin: .2rem 0 0; border-left: 4px solid var(--ink); padding-left: .5rem; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
#order .number { white-space: nowrap; }
.map { overflow-x: auto; border: 1px solid var(--rule); background: #fff; }
.map > svg { display: block; width: 100%; min-width: 40rem; height: auto; }
@media print { form, nav, #settle, #adopt, .map + p { display: none; } .map > svg { min-width: 0; } }
`;
