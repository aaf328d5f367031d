// What comes next by the plan that was adopted, on the screen of the day; nothing of it once it no longer holds.
import type { JSX } from 'preact';
import { type Group, stemLabel, viewGroup } from '../../../../stand/index.ts';
import { planText } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { go } from '../way.ts';
import { northAt, plansOf } from './compared.ts';
import { byCompass } from './words.ts';

export function NextByPlan({ group }: Readonly<{ group: Group }>): JSX.Element | null {
  const { state } = useField();
  const { stand } = state.folded;
  const compared = plansOf(state.folded).get(group.id);
  const toCut = viewGroup(stand, [], group).standingCut.length;
  const look = () => go('plan');
  if (compared !== undefined && compared.ended.length > 0)
    return (
      <Act looks="open-item" symbol="hazard" under={planText.endedUnder} onTouch={look}>
        {planText.endedTitle}
      </Act>
    );
  const step = group.plan?.body.steps.find(({ stem }) => stem === compared?.next);
  if (step !== undefined) {
    const { stem, aim, left = '', right = '' } = step;
    const room = [left, right].map((degrees) => String(Math.floor(Number(degrees))));
    const said = byCompass(Number(aim.value), northAt(stand, stem));
    return (
      <Act
        looks="large left"
        symbol="list"
        under={planText.nextUnder(said, room[0] ?? '', room[1] ?? '')}
        onTouch={look}
      >
        {planText.nextByPlan(stemLabel(stand.stems.get(stem)))}
      </Act>
    );
  }
  if (toCut === 0) return null;
  return (
    <Act looks="left" symbol="list" under={planText.openUnder} onTouch={look}>
      {planText.open(toCut)}
    </Act>
  );
}
