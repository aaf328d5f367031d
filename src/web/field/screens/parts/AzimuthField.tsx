// An azimuth: typed, with what it is counted from, or read from the phone's compass. Kept as "135 mag".
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { figure, text } from '../../text/index.ts';
import { useField } from '../context.ts';
import type { Form } from '../form.ts';
import { useCompass } from '../place/compass.ts';
import { numberParts } from '../values.ts';
import { Act } from './Act.tsx';
import { Chips } from './Chips.tsx';
import { Troubles } from './Field.tsx';
import { Keypad } from './Keypad.tsx';

const words = text.fields.azimuth;
type Asked = Readonly<{ form: Form; name: string; label?: string }>;

export function AzimuthField({ form, name, label = text.fields.called(name) }: Asked): JSX.Element {
  const { state } = useField();
  const [open, setOpen] = useState<'keys' | 'compass' | undefined>(undefined);
  const { number, unit = 'mag' } = numberParts(form.text(name));
  const crs = state.folded.stand.logbook?.body.crs;
  const north = unit.split(' ')[0] ?? 'mag';
  const write = (degrees: string, from: string) =>
    form.set(
      name,
      degrees === '' ? undefined : `${degrees} ${from === 'grid' && crs ? `grid ${crs}` : from}`,
    );
  const norths = (['mag', 'true', ...(crs === undefined ? [] : (['grid'] as const))] as const).map(
    (value) => ({ value, words: words[value] }),
  );
  return (
    <fieldset class="field">
      <legend class="label">{label}</legend>
      <div class="number">
        <button
          type="button"
          class="act quiet number-shown numbers"
          aria-label={text.fields.keypad.open(label, number === '' ? '' : words.heard(number, north))}
          aria-expanded={open === 'keys'}
          onClick={() => setOpen(open === 'keys' ? undefined : 'keys')}
        >
          <output class={number === '' ? 'soft' : ''}>
            {number === '' ? text.fields.keypad.empty : `${number}° ${words[north as 'mag'] ?? north}`}
          </output>
        </button>
        <Act looks="quiet" symbol="place" onTouch={() => setOpen(open === 'compass' ? undefined : 'compass')}>
          {words.fromPhone}
        </Act>
      </div>
      {open === 'keys' && (
        <>
          <Keypad
            label={label}
            number={number}
            onNumber={(digits) => write(digits, north)}
            onDone={() => setOpen(undefined)}
          />
          <Chips
            label={words.fromNorth}
            options={norths}
            isChosen={(value) => value === north}
            onTouch={(value) => write(number === '' ? '0' : number, value)}
          />
        </>
      )}
      {open === 'compass' && (
        <Compass
          onUse={(degrees) => {
            write(degrees, 'mag');
            setOpen(undefined);
          }}
        />
      )}
      <Troubles form={form} name={name} />
    </fieldset>
  );
}

function Compass({ onUse }: Readonly<{ onUse: (degrees: string) => void }>): JSX.Element {
  const { degrees, tilted, trouble } = useCompass(true);
  const whole = degrees === undefined ? undefined : String(Math.round(degrees) % 360);
  return (
    <div class="sheet settles" role="status">
      <p>{words.holdFlat}</p>
      {trouble === 'none' && <p class="trouble">{words.none}</p>}
      {trouble === 'refused' && <p class="trouble">{words.refused}</p>}
      {tilted && <p class="trouble">{words.tilted}</p>}
      {whole !== undefined && (
        <>
          <p class="tag-large numbers">{words.reading(figure(Number(whole)))}</p>
          <Act looks="full" onTouch={() => onUse(whole)}>
            {words.use}
          </Act>
        </>
      )}
      <p class="soft small">{words.bends}</p>
    </div>
  );
}
