// A plan that was made: set aside, the chance of the whole, next, the rest, and what to know of it.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { type PlannedAside, type PlannedFall, type PlanSaid, stopsOf } from '../../../../felling/index.ts';
import { planText } from '../../text/index.ts';
import type { Form } from '../form.ts';
import { FallDetails, NextFall } from './Fall.tsx';
import { MeasureFirst } from './MeasureFirst.tsx';
import { SettleOne } from './Settling.tsx';
import { byCompass } from './words.ts';

type Asked = Readonly<{
  plan: PlanSaid;
  /** Where something can be settled; without it the plan is only shown. */
  form?: Form | undefined;
  /** Has worked out what should be measured first. */
  onMeasure?: (() => void) | undefined;
}>;

export function Made({ plan, form, onMeasure }: Asked): JSX.Element {
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
          {falls
            .flatMap((fall) => stopsOf(fall).map((reason) => planText.stopBefore(fall.label, reason)))
            .map((words) => (
              <p class="trouble" key={words}>
                {words}
              </p>
            ))}
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
          {rest.map((fall, at) => (
            <Later key={fall.stem} fall={fall} place={at + 2} after={after} form={form} />
          ))}
        </section>
      )}
      {onMeasure !== undefined && falls.length > 0 && <MeasureFirst plan={plan} onMeasure={onMeasure} />}
      <Remarks plan={plan} />
    </>
  );
}

type Later = Readonly<{
  fall: PlannedFall;
  place: number;
  after: PlanSaid['after'];
  form: Form | undefined;
}>;

/** One that falls later, in a line; what is folded away is drawn when it is opened: a large group has much of it. */
function Later({ fall, place, after, form }: Later): JSX.Element {
  const [open, setOpen] = useState(false);
  const { label, magnetic, step } = fall;
  const aim = byCompass(step.aim, magnetic === undefined ? undefined : step.aim - magnetic);
  return (
    <details class="unfold" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{planText.inOrder(place, label, aim, step.hangUp)}</summary>
      <div class="unfolded">
        {open && (
          <>
            <FallDetails fall={fall} after={after} />
            {form !== undefined && <SettleOne form={form} fall={fall} />}
          </>
        )}
      </div>
    </details>
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

/** Of a logbook with thousands of stems that nobody placed, a phone names no more than these. */
const MOST_UNPLACED = 10;

function Remarks({ plan }: Readonly<{ plan: PlanSaid }>): JSX.Element {
  const { falls, exact, levels, limit, changed, unused, unplaced } = plan;
  const remarks = [
    ...(falls.length === 0
      ? []
      : [exact ? planText.exact : planText.searched(levels.hangUps.gap, levels.loss.gap)]),
    planText.limit(limit),
    ...changed.map(({ name, value, usual, recorded }) =>
      planText.changed(name, value, usual, recorded?.reason),
    ),
    ...unused.map(({ says }) => says),
    ...unplaced.slice(0, MOST_UNPLACED).map(({ label, why }) => planText.unplaced(label, why)),
    ...(unplaced.length > MOST_UNPLACED ? [planText.moreUnplaced(unplaced.length - MOST_UNPLACED)] : []),
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
