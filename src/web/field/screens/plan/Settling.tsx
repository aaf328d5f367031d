// What a person settles before the plan is made: an aim, the stem that goes next, tools at hand, wind and slope.
import type { JSX } from 'preact';
import type { PlannedFall } from '../../../../felling/index.ts';
import { stemLabel } from '../../../../stand/index.ts';
import { planText } from '../../text/index.ts';
import { useField, useUnits } from '../context.ts';
import type { Form } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { AzimuthField } from '../parts/AzimuthField.tsx';
import { Chips } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { NumberField } from '../parts/NumberField.tsx';
import { aimFieldOf, settledIn } from './asking.ts';

/** Beside one fall: have it go next, or aim it elsewhere. */
export function SettleOne({
  form,
  fall: { stem },
  isNext = false,
}: Readonly<{ form: Form; fall: PlannedFall; isNext?: boolean }>): JSX.Element {
  const trial = `try:${stem}`;
  const aimed = form.text(trial);
  return (
    <>
      {!isNext && (
        <Act looks="quiet" under={planText.thisNextUnder} onTouch={() => form.set('next', stem)}>
          {planText.thisNext}
        </Act>
      )}
      <AzimuthField form={form} name={trial} label={planText.fix} />
      {aimed !== '' && (
        <Act onTouch={() => form.setAll({ [aimFieldOf(stem)]: aimed, [trial]: '' })}>{planText.fixGo}</Act>
      )}
    </>
  );
}

/** What is settled, each with the way to take it out. */
export function Settled({
  form,
  stems,
}: Readonly<{ form: Form; stems: ReadonlySet<string> }>): JSX.Element | null {
  const { stand } = useField().state.folded;
  const { aims, next } = settledIn(form.values, stems);
  const label = (stem: string) => stemLabel(stand.stems.get(stem));
  const lines = [
    ...aims.map(({ stem, aim }) => ({
      field: aimFieldOf(stem),
      words: planText.settledAim(label(stem), aim),
    })),
    ...(next === undefined ? [] : [{ field: 'next', words: planText.settledNext(label(next)) }]),
  ];
  if (lines.length === 0) return null;
  return (
    <section class="section" aria-labelledby="plan-settled">
      <h2 id="plan-settled">{planText.settled}</h2>
      {lines.map(({ field, words }) => (
        <div class="notice" key={field}>
          <span class="grow">{words}</span>
          <Act
            looks="quiet"
            heard={`${planText.takeOut}: ${words}`}
            onTouch={() => form.set(field, undefined)}
          >
            {planText.takeOut}
          </Act>
        </div>
      ))}
    </section>
  );
}

export function Circumstances({ form }: Readonly<{ form: Form }>): JSX.Element {
  const wind = useUnits() === 'us' ? ['mph', 'm/s'] : ['m/s', 'mph'];
  return (
    <Unfold label={planText.atHand}>
      <Chips
        label={planText.tools}
        options={[
          { value: 'wedges', words: planText.wedges },
          { value: 'winch', words: planText.winch },
        ]}
        isChosen={(tool) => form.text(tool) === 'yes'}
        onTouch={(tool) => form.set(tool, form.text(tool) === 'yes' ? undefined : 'yes')}
      />
      <NumberField form={form} name="wind" label={planText.wind} units={wind} />
      <NumberField form={form} name="slope" label={planText.slope} units={['%']} />
      <AzimuthField form={form} name="downhill" label={planText.downhill} />
      <TextField form={form} name="people" label={planText.people} hint={planText.peopleHint} />
    </Unfold>
  );
}
