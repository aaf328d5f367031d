// A hung-up stem is down now.
import type { JSX } from 'preact';
import { dangersIn, stemLabel } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { AzimuthField } from '../parts/AzimuthField.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { StemPicker, stemDetails } from '../parts/StemPicker.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { go, goInstead } from '../way.ts';

const words = text.stems.cleared;

export function Cleared({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { state } = useField();
  const { hungUp } = dangersIn(state.folded.stand);
  if (about.stem !== undefined) return <Clear key={about.stem} stem={about.stem} />;
  return (
    <Frame title={words.which}>
      <StemPicker
        likely={hungUp}
        none={words.none}
        onChoose={({ id }) => goInstead('cleared', { stem: id })}
      />
    </Frame>
  );
}

function Clear({ stem: id }: Readonly<{ stem: string }>): JSX.Element {
  const { state } = useField();
  const stem = state.folded.stand.stems.get(id);
  const form = useForm(`cleared:${id}`, {});
  const save = async () => {
    if (await form.save({ kind: 'hang-up-cleared', fields: { stem: id } })) goInstead('rot', { stem: id });
  };
  return (
    <Frame
      title={words.title}
      lead={stem === undefined ? undefined : `${stemLabel(stem)}, ${stemDetails(stem)}`}
      form={form}
      foot={
        <Act looks="large full" symbol="down" disabled={form.busy} onTouch={() => void save()}>
          {words.down}
        </Act>
      }
    >
      <p class="trouble">{words.notByCutting}</p>
      <TextField form={form} name="how" long />
      <AzimuthField form={form} name="lay" />
      <WhenField form={form} />
      <Act looks="quiet" onTouch={() => go('today')}>
        {text.common.cancel}
      </Act>
    </Frame>
  );
}
