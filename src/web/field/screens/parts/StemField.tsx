// A stem as one field among others: what is chosen, or "choose", which unfolds the picker.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { type Stem, stemLabel } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import type { Form } from '../form.ts';
import { Act } from './Act.tsx';
import { Troubles } from './Field.tsx';
import { StemPicker } from './StemPicker.tsx';

type Asked = Readonly<{
  form: Form;
  name: string;
  likely: readonly Stem[];
  /** What it says while none is chosen. */
  none?: string;
  label?: string;
}>;

export function StemField({
  form,
  name,
  likely,
  none = text.common.choose,
  label = text.fields.called(name),
}: Asked): JSX.Element {
  const { state } = useField();
  const [open, setOpen] = useState(false);
  const chosen = form.text(name);
  return (
    <fieldset class="field">
      <legend class="label">{label}</legend>
      <Act looks="quiet left" onTouch={() => setOpen(!open)}>
        {chosen === '' ? none : stemLabel(state.folded.stand.stems.get(chosen))}
      </Act>
      {open && (
        <div class="sheet settles">
          <StemPicker
            likely={likely}
            onChoose={(stem) => {
              form.set(name, stem.id);
              setOpen(false);
            }}
          />
          {chosen !== '' && (
            <Act
              looks="quiet"
              onTouch={() => {
                form.set(name, undefined);
                setOpen(false);
              }}
            >
              {text.fields.clear}
            </Act>
          )}
        </div>
      )}
      <Troubles form={form} name={name} />
    </fieldset>
  );
}
