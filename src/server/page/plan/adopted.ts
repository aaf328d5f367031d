// The plan that was adopted, whether it still holds, and the button that adopts the one on the page.
import { type FellingPlan, type PlanCompared, planHash } from '../../../felling/index.ts';
import { html, list, type Piece, planSentences } from '../../../reports/index.ts';
import type { Folded, Group } from '../../../stand/index.ts';
import { addressOf, type FormState } from './form.ts';

/** Before everything that is computed anew. */
export function adoptedBox(folded: Folded, group: Group, compared: PlanCompared | undefined): Piece {
  if (compared === undefined) return html`<div class="box"><p>No plan was adopted for this group.</p></div>`;
  if (compared.ended.length > 0)
    return html`<section class="box warn" id="adopted"><h2>The plan that was adopted no longer holds. Stop.</h2>
      ${list(compared.ended)}<p>What follows is computed anew from what is recorded now.</p></section>`;
  return html`<section class="box" id="adopted"><h2>Adopted plan</h2>
    ${list(planSentences(folded, group))}
    <p>As recorded, nothing has ended it. It ends with whatever turns out otherwise.</p></section>`;
}

/** Whether and why not this page can record. */
export type MayAdopt = Readonly<{ ok: true } | { ok: false; why: string }>;

export function adoptSection(
  state: FormState,
  plan: FellingPlan,
  { may, fault }: Readonly<{ may: MayAdopt; fault: string | undefined }>,
): Piece {
  if (plan.falls.length === 0) return html``;
  if (!may.ok) return html`<section id="adopt"><h2>Adopt this plan</h2><p>${may.why}</p></section>`;
  return html`<section id="adopt"><h2>Adopt this plan</h2>
    <p>Adopting records the order and the aims as they stand on this page, so that what happens can be held against them. It is no
      permission to fell: a trained person on site decides at every stem.</p>
    ${fault !== undefined && html`<p class="wrong" id="wrong-adopt" role="alert">${fault}</p>`}
    <form method="post" action="${addressOf(state)}">
      <input type="hidden" name="plan" value="${planHash(plan)}">
      <input type="hidden" name="when" value="${plan.when}">
      <p><button type="submit">Adopt this plan</button></p>
    </form></section>`;
}
