// Note damage to a leave tree, a sapling, soil, water or a structure.
import type { JSX } from 'preact';
import { saplingLabel, viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup, useUnits } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf, optionsOf } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LengthField, NumberField } from '../parts/NumberField.tsx';
import { StemField } from '../parts/StemField.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { PlaceField } from '../place/PlaceField.tsx';
import { go } from '../way.ts';

const words = text.ground.damage;

export function Damage(): JSX.Element {
  const { stand } = useField().state.folded;
  const group = useGroup();
  const units = useUnits();
  const form = useForm('damage', {});
  const view = group === undefined ? undefined : viewGroup(stand, [], group);
  const to = form.text('to');
  const saplings = view?.saplings ?? [...stand.saplings.values()];
  const save = async () => {
    if (to === '') {
      form.refuse([{ field: 'to', value: '', remedy: words.needsTo }]);
      return;
    }
    const fields = {
      ...(group === undefined ? {} : { group: group.id }),
      stem: to === 'leave-tree' ? form.text('stem') : undefined,
      sapling: to === 'sapling' ? form.text('sapling') : undefined,
    };
    if (await form.save({ kind: 'damage-noted', fields })) go('today');
  };
  return (
    <Frame
      title={words.title}
      form={form}
      foot={
        <Act looks="large full" symbol="damage" disabled={form.busy} onTouch={() => void save()}>
          {words.save}
        </Act>
      }
    >
      <OneOf form={form} name="to" label={words.to} options={optionsOf(text.options.damaged)} />
      {to === 'leave-tree' && (
        <>
          <StemField form={form} name="stem" label={words.which} likely={view?.markedLeave ?? []} />
          <OneOf form={form} name="part" options={optionsOf(text.options.part)} />
        </>
      )}
      {to === 'sapling' && (
        <OneOf
          form={form}
          name="sapling"
          label={words.which}
          options={saplings.map((one) => ({ value: one.id, words: saplingLabel(one) }))}
        />
      )}
      <TextField form={form} name="what" long />
      <Unfold label={words.more}>
        <NumberField form={form} name="woundArea" units={units === 'us' ? ['in2', 'cm2'] : ['cm2', 'in2']} />
        <LengthField form={form} name="woundHeight" part="height" />
        <StemField form={form} name="byStem" likely={(view?.felled ?? []).toReversed()} />
        <PlaceField form={form} />
        <WhenField form={form} />
      </Unfold>
    </Frame>
  );
}
