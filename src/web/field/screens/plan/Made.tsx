// A plan that was made: set aside, the chance of the whole, next, the rest, and what to know of it.
import type { JSX } from 'preact';
import type { PlannedAside, PlanSaid } from '../../../../felling/index.ts';
import { planText } from '../../text/index.ts';
import type { Form } from '../form.ts';
import { Unfold } from '../parts/Field.tsx';
import { FallDetails, NextFall } from './Fall.tsx';
import { SettleOne } from './Settling.tsx';
import { byCompass } from './words.ts';

/** @param form where something can be settled; without it the plan is only shown */
export function Made({ plan, form }: Readonly<{ plan: PlanSaid; form?: Form | undefined }>): JSX.Element {
  const { falls, aside, totals, after } = plan;
  const [next, ...rest] = falls;
  return (
    <>
      <Aside aside={aside} />
      {next === undefined ? (
        <p>{planText.nothing}</p>
      ) : (
        <>
          <p>{planText.totals(totals.without, totals.hangUps, totals.loss)}</p>
          <section class="section" aria-labelledby="plan-next">
            <h2 id="plan-next">{planText.next}</h2>
            <NextFall fall={next} after={after} />
            {form !== undefined && <SettleOne form={form} fall={next} isNext />}
          </section>
        </>
      )}
      {rest.length > 0 && (
        <section class="section" aria-labelledby="plan-rest">
          <h2 id="plan-rest">{planText.rest}</h2>
          {rest.map((fall, at) => {
            const north = fall.magnetic === undefined ? undefined : fall.step.aim - fall.magnetic;
            const aim = byCompass(fall.step.aim, north);
            return (
              <Unfold key={fall.stem} label={planText.inOrder(at + 2, fall.label, aim, fall.step.hangUp)}>
                <FallDetails fall={fall} after={after} />
                {form !== undefined && <SettleOne form={form} fall={fall} />}
              </Unfold>
            );
          })}
        </section>
      )}
      <Remarks plan={plan} />
    </>
  );
}

/** Before the order, with the reason and what would change it: nobody may take them for forgotten. */
function Aside({ aside }: Readonly<{ aside: readonly PlannedAside[] }>): JSX.Element | null {
  if (aside.length === 0) return null;
  return (
    <section class="banner grave" aria-labelledby="plan-aside">
      <h2 id="plan-aside">{planText.aside}</h2>
      <p>{planText.asideLead}</p>
      {aside.map(({ stem, label, because, remedies }) => (
        <div class="section" key={stem}>
          <h3>{label}</h3>
          <p>{because}</p>
          {remedies.map((remedy) => (
            <p key={remedy}>{forThePhone(remedy)}</p>
          ))}
        </div>
      ))}
    </section>
  );
}

/** The name of a flag of the command line says nothing here: what it stands for can be touched on this screen. */
function forThePhone(sentence: string): string {
  return sentence.replaceAll(/ \(--\w+\)/g, '');
}

function Remarks({ plan }: Readonly<{ plan: PlanSaid }>): JSX.Element {
  const { falls, exact, levels, limit, changed, unplaced } = plan;
  const remarks = [
    ...(falls.length === 0
      ? []
      : [exact ? planText.exact : planText.searched(levels.hangUps.gap, levels.loss.gap)]),
    planText.limit(limit),
    ...changed.map(({ name, value, usual }) => planText.changed(name, value, usual)),
    ...unplaced.map(({ label, why }) => planText.unplaced(label, why)),
    planText.notEntered,
  ];
  return (
    <div class="section">
      {remarks.map((remark) => (
        <p class="small" key={remark}>
          {remark}
        </p>
      ))}
    </div>
  );
}
