// The felling plan of a group, worked out on this phone from what it holds, what is not sent yet included. What ended an
// adopted plan and the cautions come first, then the stems that are set aside, then what is next.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { cautions } from '../../../../felling/index.ts';
import { dangersIn, type Group, stemLabel } from '../../../../stand/index.ts';
import type { PlanAnswer } from '../../planner/index.ts';
import { planText, text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { OpenThings } from '../today/OpenThings.tsx';
import { go, goInstead } from '../way.ts';
import { Adopt } from './Adopt.tsx';
import { AsAdopted } from './AsAdopted.tsx';
import { asAdopted, freely, toFall, usePlan } from './asking.ts';
import { isPutAway, plansOf, putAway } from './compared.ts';
import { Made } from './Made.tsx';
import { Reasons } from './PlanEnded.tsx';
import { Circumstances, Settled } from './Settling.tsx';

type About = Readonly<{ about: Readonly<Record<string, string>> }>;

export function Plan({ about }: About): JSX.Element {
  const { state } = useField();
  const inHand = useGroup();
  const group = about.group === undefined ? inHand : state.folded.stand.groups.get(about.group);
  if (group === undefined) return <Frame title={text.today.byThePlan} lead={planText.noGroup} />;
  return <GroupPlan key={group.id} group={group} />;
}

function GroupPlan({ group }: Readonly<{ group: Group }>): JSX.Element {
  const { folded, phone } = useField().state;
  const form = useForm(`plan:${group.id}`, {});
  const compared = plansOf(folded).get(group.id);
  const stems = toFall(folded, group);
  const steps = group.plan?.body.steps ?? [];
  const left = steps.filter(({ stem }) => stems.has(stem));
  const holds = compared !== undefined && compared.ended.length === 0 && left.length > 0;
  const isAnew = !holds || form.text('anew') === 'yes';
  const typed = {
    ...(isAnew ? freely(form.values, stems) : asAdopted(form.values, { ...group.plan?.body, steps: left })),
    planner: phone.person,
  };
  // It takes longer than the plan, so that it is done for what was asked, and not again for every change.
  const [measured, setMeasured] = useState('');
  const asked = JSON.stringify(typed);
  const answer = usePlan(folded, group, { ...typed, measureNext: measured === asked });
  const next = isAnew ? undefined : left[0]?.stem;
  return (
    <Frame
      title={planText.title(group.label)}
      form={form}
      foot={
        isAnew ? (
          <Adopt form={form} answer={answer} />
        ) : (
          next !== undefined && (
            <Act looks="large full" symbol="down" onTouch={() => go('felled', { stem: next })}>
              {planText.itIsDown(stemLabel(folded.stand.stems.get(next)))}
            </Act>
          )
        )
      }
    >
      <Before group={group} />
      {isAnew ? (
        <>
          {holds && (
            <>
              <p class="trouble">{planText.anewOver}</p>
              <Act looks="quiet" onTouch={() => form.set('anew', undefined)}>
                {planText.backToAdopted}
              </Act>
            </>
          )}
          <Settled form={form} stems={stems} />
          <Answer answer={answer} form={form} onMeasure={() => setMeasured(asked)} />
        </>
      ) : (
        <>
          <p>{planText.adopted(left.length, steps.length)}</p>
          {answer?.ok === false ? <AsAdopted steps={left} why={answer.why} /> : <Answer answer={answer} />}
          <Act looks="quiet" onTouch={() => form.set('anew', 'yes')}>
            {planText.anew}
          </Act>
        </>
      )}
      <Circumstances form={form} />
    </Frame>
  );
}

/** What has to be read before any plan: that one ended, the cautions, what is open. */
function Before({ group }: Readonly<{ group: Group }>): JSX.Element {
  const { engine, state } = useField();
  const { folded } = state;
  const { entry, ended = [] } = plansOf(folded).get(group.id) ?? {};
  const { hungUp, hazards } = dangersIn(folded.stand);
  const put = async (plan: string) => {
    await putAway(engine, group.id, plan);
    goInstead('plan', { group: group.id });
  };
  return (
    <>
      {entry !== undefined && ended.length > 0 && (
        <section class="banner grave" aria-labelledby="plan-ended">
          <h2 id="plan-ended">{planText.endedTitle}</h2>
          <Reasons reasons={ended} />
          <p>{planText.endedThen}</p>
          {!isPutAway(engine, group.id, entry) && (
            <Act looks="grave" under={planText.putAwayUnder} onTouch={() => void put(entry)}>
              {planText.putAway}
            </Act>
          )}
        </section>
      )}
      <p>{cautions.lead}</p>
      <Unfold label={planText.cautions}>
        {cautions.points.map((point) => (
          <p key={point.text}>{point.text}</p>
        ))}
        <p>{cautions.end}</p>
      </Unfold>
      {hungUp.length + hazards.length > 0 && <OpenThings group={group} />}
    </>
  );
}

type Shown = Omit<Parameters<typeof Made>[0], 'plan'> & Readonly<{ answer: PlanAnswer | undefined }>;

function Answer({ answer, ...more }: Shown): JSX.Element {
  if (answer?.ok) return <Made plan={answer.plan} {...more} />;
  return (
    <p role="status" class={answer === undefined ? 'soft' : 'trouble'}>
      {answer === undefined
        ? planText.working
        : planText.no(answer.why === '' ? planText.noThread : answer.why)}
    </p>
  );
}
