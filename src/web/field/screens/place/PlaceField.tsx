// Where something is: a fix, a stake and a tape, or later. Nothing here ever keeps somebody from saving: what is half
// measured says what is missing and can be left out.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import type { Form } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { AzimuthField } from '../parts/AzimuthField.tsx';
import { Chips, OneOf } from '../parts/Chips.tsx';
import { Troubles } from '../parts/Field.tsx';
import { LengthField, NumberField } from '../parts/NumberField.tsx';
import { FixPart } from './FixPart.tsx';
import { nowhere } from './value.ts';

const words = text.position;

export function PlaceField({ form }: Readonly<{ form: Form }>): JSX.Element {
  const how = form.text('where');
  const choose = (value: string) =>
    form.setAll(value === 'later' || value === how ? nowhere : { ...nowhere, where: value });
  return (
    <>
      <Chips
        label={words.title}
        options={[
          { value: 'fix', words: words.fix },
          { value: 'tape', words: words.tape },
          { value: 'later', words: words.later },
        ]}
        isChosen={(value) => value === (how === '' ? 'later' : how)}
        onTouch={choose}
        under={<Troubles form={form} name="position" />}
      />
      {form.withoutPlace !== undefined && (
        <Act disabled={form.busy} onTouch={form.withoutPlace}>
          {words.without}
        </Act>
      )}
      {how === 'fix' && <FixPart value={form.values.position} onFix={(fix) => form.set('position', fix)} />}
      {how === 'tape' && <Tape form={form} />}
    </>
  );
}

function Tape({ form }: Readonly<{ form: Form }>): JSX.Element {
  const { state } = useField();
  const stakes = [...state.folded.stand.stakes.values()];
  return (
    <div class="sheet">
      {stakes.length === 0 ? (
        <>
          <p class="trouble">{words.noStakes}</p>
          <Troubles form={form} name="tapeFrom" />
        </>
      ) : (
        <OneOf
          form={form}
          name="tapeFrom"
          label={words.from}
          options={stakes.map(({ id, label }) => ({ value: `stake:${id}`, words: label }))}
        />
      )}
      <AzimuthField form={form} name="tapeAzimuth" label={words.azimuth} />
      <LengthField form={form} name="tapeDistance" label={words.distance} part="distance" />
      <NumberField form={form} name="tapeSlope" label={words.slope} units={['%', 'deg']} />
      <p class="soft small">{text.fields.azimuth.bends}</p>
    </div>
  );
}
