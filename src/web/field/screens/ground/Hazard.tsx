// Note a hazard, and say that one is gone.
import type { JSX } from 'preact';
import { dangersIn, hazardWords, viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf, optionsOf } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LengthField } from '../parts/NumberField.tsx';
import { StemField } from '../parts/StemField.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { PlaceField } from '../place/PlaceField.tsx';
import { byNearestTag } from '../stems/nextTag.ts';
import { go, goInstead } from '../way.ts';

const words = text.ground.hazard;

export function Hazard(): JSX.Element {
  const { state } = useField();
  const group = useGroup();
  const form = useForm('hazard', {});
  const near = group === undefined ? [] : viewGroup(state.folded.stand, [], group).stems;
  const save = async () => {
    if (form.text('what') === '') {
      form.refuse([{ field: 'what', value: '', remedy: words.needsWhat }]);
      return;
    }
    const fields = group === undefined ? {} : { group: group.id };
    if (await form.save({ kind: 'hazard-noted', fields })) go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={words.marked}
      form={form}
      foot={
        <Act looks="large full" symbol="hazard" disabled={form.busy} onTouch={() => void save()}>
          {words.save}
        </Act>
      }
    >
      <OneOf form={form} name="what" label={words.what} options={optionsOf(text.options.hazard)} />
      <StemField
        form={form}
        name="stem"
        label={words.at}
        none={words.atNone}
        likely={byNearestTag(near, undefined)}
      />
      <Unfold label={words.more}>
        <LengthField form={form} name="radius" part="distance" />
        <PlaceField form={form} />
        <TextField form={form} name="note" long />
        <WhenField form={form} />
      </Unfold>
    </Frame>
  );
}

export function Gone({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { stand } = useField().state.folded;
  if (about.hazard !== undefined) return <Clear key={about.hazard} hazard={about.hazard} />;
  const { hazards } = dangersIn(stand);
  return (
    <Frame title={words.clearWhich} lead={words.clearHelp}>
      {hazards.length === 0 && <p>{words.none}</p>}
      <div class="act-list">
        {hazards.map((hazard) => (
          <Act
            key={hazard.id}
            looks="open-item"
            symbol="hazard"
            onTouch={() => goInstead('gone', { hazard: hazard.id })}
          >
            {hazardWords(stand, hazard)}
          </Act>
        ))}
      </div>
    </Frame>
  );
}

function Clear({ hazard: id }: Readonly<{ hazard: string }>): JSX.Element {
  const { stand } = useField().state.folded;
  const hazard = stand.hazards.get(id);
  const form = useForm(`gone:${id}`, {});
  const save = async () => {
    if (await form.save({ kind: 'hazard-cleared', fields: { hazard: id } })) go('today');
  };
  return (
    <Frame
      title={words.clearTitle}
      lead={words.clearHelp}
      form={form}
      foot={
        <Act looks="large full" disabled={form.busy} onTouch={() => void save()}>
          {words.clear}
        </Act>
      }
    >
      {hazard !== undefined && <h2>{hazardWords(stand, hazard)}</h2>}
      <TextField form={form} name="how" label={words.how} long />
      <Act looks="quiet" onTouch={() => go('today')}>
        {text.common.cancel}
      </Act>
    </Frame>
  );
}
