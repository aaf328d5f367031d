// The aim that a stem has in the plan in force, offered to the record of its fall in sight of whoever records. It is what was
// meant; how the stem lies is never taken from it.
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { planText } from '../../text/index.ts';
import { useField } from '../context.ts';
import type { Form } from '../form.ts';
import { Chips } from '../parts/Chips.tsx';
import { northAt, plansOf } from './compared.ts';
import { byCompass } from './words.ts';

export function AimByPlan({ stem, form }: Readonly<{ stem: string; form: Form }>): JSX.Element | null {
  const { stand } = useField().state.folded;
  const aim = usePlanned(stem);
  const fresh = form.ready && form.text('aimOffered') === '' && form.text('aimed') === '';
  useEffect(() => {
    if (aim !== undefined && fresh) form.setAll({ aimed: aim, aimOffered: 'yes' });
  }, [aim, fresh]);
  if (aim === undefined) return null;
  const chosen = form.text('aimed') === aim ? 'plan' : 'elsewhere';
  const said = byCompass(Number.parseFloat(aim), northAt(stand, stem));
  return (
    <Chips
      label={planText.wasAimed}
      options={[
        { value: 'plan', words: planText.byThePlan(said) },
        { value: 'elsewhere', words: planText.elsewhere },
      ]}
      isChosen={(value) => value === chosen}
      onTouch={(value) => form.setAll({ aimed: value === 'plan' ? aim : '', aimOffered: 'yes' })}
      under={<span class="soft small">{planText.aimIsNoLay}</span>}
    />
  );
}

/** As it would be typed; undefined where no plan in force holds the stem. */
function usePlanned(stem: string): string | undefined {
  const { folded } = useField().state;
  for (const [group, { ended }] of plansOf(folded)) {
    const step = folded.stand.groups.get(group)?.plan?.body.steps.find((one) => one.stem === stem);
    if (step !== undefined && ended.length === 0) return `${step.aim.value} true`;
  }
  return undefined;
}
