// Write a note.
import type { JSX } from 'preact';
import { viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { StemField } from '../parts/StemField.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { PlaceField } from '../place/PlaceField.tsx';
import { byNearestTag } from '../stems/nextTag.ts';
import { go } from '../way.ts';

const words = text.keep.note;

export function Note({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { stand } = useField().state.folded;
  const group = useGroup();
  const form = useForm('note', { stem: about.stem ?? '' });
  const near = group === undefined ? [] : viewGroup(stand, [], group).stems;
  const save = async () => {
    if (form.text('text').trim() === '') {
      form.refuse([{ field: 'text', value: '', remedy: words.needsText }]);
      return;
    }
    const fields = group === undefined ? {} : { group: group.id };
    if (await form.save({ kind: 'note-written', fields })) go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={group === undefined ? text.ground.noGroup : text.today.inGroup(group.label)}
      form={form}
      foot={
        <Act looks="large full" symbol="note" disabled={form.busy} onTouch={() => void save()}>
          {words.save}
        </Act>
      }
    >
      <TextField form={form} name="text" long />
      <StemField form={form} name="stem" likely={byNearestTag(near, undefined)} />
      <Unfold label={text.fields.more}>
        <PlaceField form={form} />
        <WhenField form={form} />
      </Unfold>
    </Frame>
  );
}
