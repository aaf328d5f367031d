// A number with its unit, typed on the page's own keys; kept in the draft as somebody would write it: "14.2 in".
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { defaultLengthUnit } from '../../../../events/index.ts';
import { text } from '../../text/index.ts';
import { useUnits } from '../context.ts';
import type { Form } from '../form.ts';
import { numberParts } from '../values.ts';
import { Act } from './Act.tsx';
import { Troubles } from './Field.tsx';
import { Keypad } from './Keypad.tsx';

type Role = Parameters<typeof defaultLengthUnit>[1];
type Asked = Readonly<{
  form: Form;
  name: string;
  label?: string;
  /** Units that it may have, the first one to begin with; none for a plain count. */
  units: readonly string[];
}>;

const lengthUnitsOf: Readonly<Record<Role, readonly string[]>> = {
  diameter: ['in', 'cm'],
  height: ['ft', 'm'],
  distance: ['ft', 'm'],
  small: ['in', 'cm'],
};

/** A length in the unit that its part takes here. */
export function LengthField({
  part,
  ...asked
}: Omit<Asked, 'units'> & Readonly<{ part: Role }>): JSX.Element {
  const first = defaultLengthUnit(useUnits(), part);
  const units = [first, ...lengthUnitsOf[part].filter((unit) => unit !== first)];
  return <NumberField {...asked} units={units} />;
}

export function NumberField({ form, name, label = text.fields.called(name), units }: Asked): JSX.Element {
  const [open, setOpen] = useState(false);
  const { number, unit: written } = numberParts(form.text(name));
  const unit = written ?? units[0] ?? '';
  const write = (digits: string, its: string) =>
    form.set(name, digits === '' ? undefined : `${digits} ${its}`.trim());
  const nextUnit = units[(units.indexOf(unit) + 1) % units.length] ?? unit;
  const shown =
    number === '' ? `${text.fields.keypad.empty}${unit === '' ? '' : `, ${unit}`}` : `${number} ${unit}`;
  return (
    <fieldset class="field">
      <legend class="label">{label}</legend>
      <button
        type="button"
        class="act quiet left number-shown numbers"
        aria-label={text.fields.keypad.open(label, number === '' ? '' : shown)}
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        <output class={number === '' ? 'soft' : ''}>{shown}</output>
      </button>
      {open && (
        <Keypad
          label={label}
          number={number}
          onNumber={(digits) => write(digits, unit)}
          onDone={() => setOpen(false)}
        >
          {units.length > 1 && (
            <Act
              looks="quiet"
              heard={text.fields.keypad.unit(unit)}
              disabled={number === ''}
              onTouch={() => write(number, nextUnit)}
            >
              {unit}
            </Act>
          )}
        </Keypad>
      )}
      <Troubles form={form} name={name} />
    </fieldset>
  );
}
