// Rot at the stump: "looked, none" is one touch; figures for the rest.
import type { JSX } from 'preact';
import { stemLabel } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf, optionsOf } from '../parts/Chips.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LastSaved } from '../parts/LastSaved.tsx';
import { LengthField } from '../parts/NumberField.tsx';
import { StemPicker, stemDetails } from '../parts/StemPicker.tsx';
import { go, goInstead } from '../way.ts';

const words = text.stems.rot;

export function Rot({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  return about.stem === undefined ? <Choose /> : <Look key={about.stem} stem={about.stem} />;
}

function Choose(): JSX.Element {
  const { state } = useField();
  const group = useGroup();
  const stumps = [...state.folded.stand.stems.values()]
    .filter(
      ({ felling, decay, group: own }) =>
        felling !== undefined && decay === undefined && (group === undefined || own === group.id),
    )
    .sort((a, b) => Date.parse(b.felling?.at.at ?? '') - Date.parse(a.felling?.at.at ?? ''));
  return (
    <Frame title={words.which} lead={words.chooseHelp}>
      <StemPicker likely={stumps} none={words.all} onChoose={({ id }) => goInstead('rot', { stem: id })} />
    </Frame>
  );
}

function Look({ stem: id }: Readonly<{ stem: string }>): JSX.Element {
  const { state } = useField();
  const stem = state.folded.stand.stems.get(id);
  const form = useForm(`rot:${id}`, {});
  const save = async (found: string) => {
    if (found === '') {
      form.refuse([{ field: 'found', value: '', remedy: words.needsFound }]);
      return;
    }
    if (await form.save({ kind: 'decay-measured', fields: { stem: id, found } })) go('today');
  };
  const { none: _none, ...others } = text.options.found;
  return (
    <Frame
      title={words.title}
      lead={stem === undefined ? undefined : `${stemLabel(stem)}, ${stemDetails(stem)}`}
      form={form}
      foot={
        <div class="foot-row">
          <Act looks="large" disabled={form.busy} onTouch={() => void save(form.text('found'))}>
            {words.measured}
          </Act>
          <Act
            looks="large full"
            symbol="rot"
            under={words.noneUnder}
            disabled={form.busy}
            onTouch={() => void save('none')}
          >
            {words.none}
          </Act>
        </div>
      }
    >
      <LastSaved />
      <OneOf form={form} name="found" options={optionsOf(others)} />
      <LengthField form={form} name="upTheButt" part="height" />
      <LengthField form={form} name="diameter" part="diameter" />
      <LengthField form={form} name="shell" part="small" />
      <LengthField form={form} name="stumpDiameter" part="diameter" />
      <TextField form={form} name="note" />
    </Frame>
  );
}
