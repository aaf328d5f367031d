// Mark a stem: two touches in the common case. Group and species stay as they were, the tag counts up, and cut and
// leave are the two buttons that save.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { type Form, useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LastSaved } from '../parts/LastSaved.tsx';
import { LengthField } from '../parts/NumberField.tsx';
import { SpeciesField } from '../parts/SpeciesField.tsx';
import { MarkMore } from './MarkMore.tsx';
import { lastTag, tagAfter } from './nextTag.ts';

const words = text.stems.mark;

export function Mark(): JSX.Element {
  const { engine, state } = useField();
  const { stand } = state.folded;
  const group = useGroup();
  const remembered = engine.remembered('mark');
  const last = lastTag(stand, group?.id) ?? lastTag(stand, undefined);
  const form = useForm('mark', {
    tag: last === undefined ? 'A1' : tagAfter(last, stand),
    species: remembered.species ?? '',
  });
  const mark = async (how: 'cut' | 'leave') => {
    const { tag = '', species = '' } = form.values;
    const next = { tag: typeof tag === 'string' && tag !== '' ? tagAfter(tag, stand) : '', species };
    const saved = await form.save({
      kind: 'stem-marked',
      fields: { mark: how, ...(group === undefined ? {} : { group: group.id }) },
      next,
    });
    if (saved) await engine.remember('mark', { species });
  };
  return (
    <Frame
      title={words.title}
      lead={group === undefined ? text.ground.noGroup : text.today.inGroup(group.label)}
      form={form}
      foot={
        <div class="foot-row">
          <Act looks="large full" symbol="cut" disabled={form.busy} onTouch={() => void mark('cut')}>
            {words.cut}
          </Act>
          <Act looks="large" symbol="leave" disabled={form.busy} onTouch={() => void mark('leave')}>
            {words.leave}
          </Act>
        </div>
      }
    >
      <LastSaved />
      <div class="pair">
        <Tag form={form} />
        <LengthField form={form} name="dbh" part="diameter" />
      </div>
      <SpeciesField form={form} />
      <MarkMore form={form} />
    </Frame>
  );
}

/** The tag that comes next; touched, it can be typed. */
function Tag({ form }: Readonly<{ form: Form }>): JSX.Element {
  const { state } = useField();
  const [changing, setChanging] = useState(false);
  const tag = form.text('tag');
  const inUse = tag !== '' && state.folded.stand.tags.has(tag.trim().toLowerCase());
  return (
    <div class="section">
      {changing ? (
        <TextField form={form} name="tag" label={words.tag} />
      ) : (
        <fieldset class="field">
          <legend class="label">{words.tag}</legend>
          <Act
            looks="quiet left number-shown"
            heard={words.changeTag(tag === '' ? words.noTag : tag)}
            onTouch={() => setChanging(true)}
          >
            <b>{tag === '' ? words.noTag : tag}</b>
          </Act>
        </fieldset>
      )}
      {inUse && <p class="trouble">{words.inUse(tag)}</p>}
    </div>
  );
}
