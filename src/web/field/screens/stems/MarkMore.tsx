// What else can be said of a stem when it is marked; all of it can be said later.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import type { Form } from '../form.ts';
import { AzimuthField } from '../parts/AzimuthField.tsx';
import { OneOf, optionsOf, SomeOf, YesNo } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { LengthField } from '../parts/NumberField.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { PlaceField } from '../place/PlaceField.tsx';

export function MarkMore({ form }: Readonly<{ form: Form }>): JSX.Element {
  return (
    <>
      <PlaceField form={form} />
      <Unfold label={text.stems.mark.more}>
        <SomeOf form={form} name="decaySigns" options={optionsOf(text.options.decaySigns)} />
        <OneOf form={form} name="vigor" options={optionsOf(text.options.vigor)} />
        <OneOf form={form} name="purpose" options={optionsOf(text.options.purpose)} />
        <TextField form={form} name="reason" />
        <LengthField form={form} name="height" part="height" />
        <LengthField form={form} name="leanOffset" part="distance" />
        <AzimuthField form={form} name="leanAzimuth" />
        <AzimuthField form={form} name="seams" />
        <TextField form={form} name="defects" />
        <YesNo form={form} name="markAtEye" />
        <YesNo form={form} name="markOnStump" />
        <WhenField form={form} />
      </Unfold>
    </>
  );
}
