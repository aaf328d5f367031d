// Protect a sapling or a patch of regeneration; its label counts up by itself.
import type { JSX } from 'preact';
import { viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup, useUnits } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { Chips } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LastSaved } from '../parts/LastSaved.tsx';
import { LengthField, NumberField } from '../parts/NumberField.tsx';
import { SpeciesField } from '../parts/SpeciesField.tsx';
import { StemField } from '../parts/StemField.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { PlaceField } from '../place/PlaceField.tsx';
import { tagAfter } from '../stems/nextTag.ts';

const words = text.ground.protect;

export function Protect(): JSX.Element {
  const { engine, state } = useField();
  const { stand } = state.folded;
  const group = useGroup();
  const units = useUnits();
  const { species = '' } = engine.remembered('protect');
  const lastLabel = [...stand.saplings.values()].findLast(({ label }) => label !== undefined)?.label;
  const form = useForm('protect', {
    noun: 'sapling',
    label: lastLabel === undefined ? 's1' : tagAfter(lastLabel, stand),
    species,
  });
  const isPatch = form.text('noun') === 'patch';
  const near = group === undefined ? [] : viewGroup(stand, [], group).markedCut;
  const save = async () => {
    const label = form.text('label');
    const kept = form.values.species ?? '';
    const saved = await form.save({
      kind: isPatch ? 'patch-protected' : 'sapling-protected',
      fields: group === undefined ? {} : { group: group.id },
      next: { noun: form.text('noun'), label: label === '' ? '' : tagAfter(label, stand), species: kept },
    });
    if (saved) await engine.remember('protect', { species: kept });
  };
  return (
    <Frame
      title={words.title}
      lead={group === undefined ? text.ground.noGroup : text.today.inGroup(group.label)}
      form={form}
      foot={
        <Act looks="large full" symbol="sapling" disabled={form.busy} onTouch={() => void save()}>
          {words.save}
        </Act>
      }
    >
      <LastSaved />
      <Chips
        label={words.one}
        options={[
          { value: 'sapling', words: words.sapling },
          { value: 'patch', words: words.patch },
        ]}
        isChosen={(value) => value === form.text('noun')}
        onTouch={(value) => form.set('noun', value)}
      />
      <TextField form={form} name="label" label={words.label} />
      <SpeciesField form={form} />
      <PlaceField form={form} />
      <Unfold label={words.more}>
        {isPatch ? (
          <NumberField form={form} name="area" units={units === 'us' ? ['ft2', 'm2'] : ['m2', 'ft2']} />
        ) : (
          <>
            <LengthField form={form} name="height" part="height" />
            <LengthField form={form} name="diameter" part="diameter" />
            <StemField form={form} name="beside" likely={near} />
          </>
        )}
        <TextField form={form} name="note" long />
        <WhenField form={form} />
      </Unfold>
    </Frame>
  );
}
