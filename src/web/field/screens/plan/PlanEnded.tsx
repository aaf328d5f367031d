// The stop card of an adopted plan that no longer holds: over everything, until a new plan is made or a person puts it away.
import type { JSX } from 'preact';
import { planEndedCard } from '../../../../felling/index.ts';
import { planText, text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { OneStopCard } from '../parts/StopCards.tsx';
import { go, goInstead } from '../way.ts';
import { type Ended, putAway } from './compared.ts';

export function PlanEnded({ ended }: Readonly<{ ended: Ended }>): JSX.Element {
  const { engine } = useField();
  const { group, entry, reasons, way } = ended;
  const put = async () => {
    await putAway(engine, group.id, entry);
    goInstead(way.screen, way.about);
  };
  return (
    <OneStopCard
      key={entry}
      card={planEndedCard}
      more={
        <div class="section">
          <p>{planText.ended(group.label)}:</p>
          <Reasons reasons={reasons} />
        </div>
      }
    >
      <div class="act-list">
        <Act looks="large grave" onTouch={() => go('plan', { group: group.id })}>
          {planText.planAnew}
        </Act>
        <Act looks="large full grave" under={planText.putAwayUnder} onTouch={() => void put()}>
          {planText.putAway}
        </Act>
        <Act looks="quiet" symbol="help" onTouch={() => go('emergency')}>
          {text.common.emergency}
        </Act>
      </div>
    </OneStopCard>
  );
}

export function Reasons({ reasons }: Readonly<{ reasons: readonly string[] }>): JSX.Element {
  return (
    <ul class="section">
      {reasons.map((reason) => (
        <li class="trouble" key={reason}>
          {reason}
        </li>
      ))}
    </ul>
  );
}
