// How it lies, what holds it, the stump, and what went otherwise than meant.
import type { ComponentChildren, JSX } from 'preact';
import { text } from '../../text/index.ts';
import type { Form } from '../form.ts';
import { AzimuthField } from '../parts/AzimuthField.tsx';
import { Chips, OneOf, optionsOf, YesNo } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { LengthField, NumberField } from '../parts/NumberField.tsx';
import { WhenField } from '../parts/WhenField.tsx';

const words = text.stems.felled;

export function FelledMore({
  form,
  hungOn,
}: Readonly<{ form: Form; hungOn: ComponentChildren }>): JSX.Element {
  return (
    <>
      <HowItLies form={form} />
      {hungOn}
      <TextField form={form} name="differed" long />
      <Unfold label={words.more}>
        {form.text('layHow') !== 'off' && <AzimuthField form={form} name="aimed" />}
        <LengthField form={form} name="stumpHeight" part="small" />
        <LengthField form={form} name="stumpDiameter" part="diameter" />
        <LengthField form={form} name="layLength" part="distance" />
        <OneOf form={form} name="notch" options={optionsOf(text.options.notch)} />
        <YesNo form={form} name="boreCut" />
        <NumberField form={form} name="wedges" units={['']} />
        <YesNo form={form} name="lever" />
        <YesNo form={form} name="winch" />
        <WhenField form={form} />
      </Unfold>
    </>
  );
}

function HowItLies({ form }: Readonly<{ form: Form }>): JSX.Element {
  const how = form.text('layHow') || 'not';
  return (
    <div class="section">
      <Chips
        label={words.lay}
        options={[
          { value: 'not', words: words.layNot },
          { value: 'aimed', words: words.layAimed },
          { value: 'measured', words: words.layMeasured },
          { value: 'off', words: words.layOff },
        ]}
        isChosen={(value) => value === how}
        onTouch={(value) => form.set('layHow', value)}
      />
      <span class="soft small">{words.layHelp}</span>
      {how === 'measured' && <AzimuthField form={form} name="lay" />}
      {how === 'off' && (
        <div class="sheet">
          <NumberField form={form} name="offBy" units={['deg']} />
          <OneOf
            form={form}
            name="offSide"
            label={words.side}
            options={[
              { value: 'left', words: words.left },
              { value: 'right', words: words.right },
            ]}
          />
          <AzimuthField form={form} name="aimed" />
        </div>
      )}
    </div>
  );
}
