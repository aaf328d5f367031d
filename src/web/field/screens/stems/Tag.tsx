// A tag is lost, or replaced by another one. The stem keeps its identity.
import type { JSX } from 'preact';
import { stemLabel, viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { StemPicker, stemDetails } from '../parts/StemPicker.tsx';
import { go, goInstead } from '../way.ts';
import { byNearestTag } from './nextTag.ts';

const words = text.stems.tag;

export function Tag({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { state } = useField();
  const group = useGroup();
  if (about.stem !== undefined) return <Lost key={about.stem} stem={about.stem} />;
  const stems = group === undefined ? [] : viewGroup(state.folded.stand, [], group).stems;
  return (
    <Frame title={words.which}>
      <StemPicker
        likely={byNearestTag(stems, undefined)}
        onChoose={({ id }) => goInstead('tag', { stem: id })}
      />
    </Frame>
  );
}

function Lost({ stem: id }: Readonly<{ stem: string }>): JSX.Element {
  const { state } = useField();
  const stem = state.folded.stand.stems.get(id);
  const form = useForm(`tag:${id}`, {});
  const lost = async () => {
    if (await form.save({ kind: 'tag-lost', fields: { stem: id } })) go('today');
  };
  const replaced = async () => {
    if (form.text('tag') === '') form.refuse([{ field: 'tag', value: '', remedy: words.needsTag }]);
    else if (await form.save({ kind: 'tag-replaced', fields: { stem: id } })) go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={stem === undefined ? undefined : `${stemLabel(stem)}, ${stemDetails(stem)}`}
      form={form}
      foot={
        <div class="foot-row">
          <Act looks="large" symbol="tag" disabled={form.busy} onTouch={() => void replaced()}>
            {words.replaced}
          </Act>
          <Act looks="large full" disabled={form.busy} onTouch={() => void lost()}>
            {words.lost}
          </Act>
        </div>
      }
    >
      <TextField form={form} name="tag" label={words.next} />
      <TextField form={form} name="note" long />
    </Frame>
  );
}
