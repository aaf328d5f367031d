// Check a sapling: one touch keeps the answer.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { speciesName } from '../../../../events/index.ts';
import {
  type Patch,
  type Sapling,
  type SaplingCondition,
  saplingLabel,
  viewGroup,
} from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LastSaved } from '../parts/LastSaved.tsx';
import { StemField } from '../parts/StemField.tsx';

const words = text.ground.check;

type Thing = Readonly<{ noun: 'sapling' | 'patch'; thing: Sapling | Patch }>;

export function Check(): JSX.Element {
  const { state } = useField();
  const { stand } = state.folded;
  const group = useGroup();
  const form = useForm('check', {});
  const view = group === undefined ? undefined : viewGroup(stand, [], group);
  const saplings = view?.saplings ?? [...stand.saplings.values()];
  const patches = view?.patches ?? [...stand.patches.values()];
  const all: Thing[] = [
    ...saplings.map((thing) => ({ noun: 'sapling' as const, thing })),
    ...patches.map((thing) => ({ noun: 'patch' as const, thing })),
  ];
  const unchecked = all.filter(({ thing }) => thing.checks.length === 0);
  const checked = all.filter(({ thing }) => thing.checks.length > 0);
  const felled = [...(view?.stems ?? stand.stems.values())].filter(({ felling }) => felling !== undefined);
  const answer =
    ({ noun, thing }: Thing) =>
    (condition: SaplingCondition) =>
      void form.save({ kind: 'sapling-checked', fields: { [noun]: thing.id, condition }, next: form.values });
  return (
    <Frame title={words.title} lead={words.lead} form={form}>
      <LastSaved />
      {all.length === 0 && <p>{words.none}</p>}
      {felled.length > 0 && (
        <StemField
          form={form}
          name="byStem"
          label={words.byStem}
          none={words.noStem}
          likely={felled.reverse()}
        />
      )}
      {unchecked.map((one) => (
        <Answers key={one.thing.id} of={one} busy={form.busy} onAnswer={answer(one)} />
      ))}
      {checked.length > 0 && (
        <Unfold label={words.checked}>
          {checked.map((one) => (
            <Answers key={one.thing.id} of={one} busy={form.busy} onAnswer={answer(one)} />
          ))}
        </Unfold>
      )}
    </Frame>
  );
}

type Asked = Readonly<{ of: Thing; busy: boolean; onAnswer: (condition: SaplingCondition) => void }>;

function Answers({ of: { noun, thing }, busy, onAnswer }: Asked): JSX.Element {
  const [given, setGiven] = useState(false);
  const label = saplingLabel(thing);
  const last = thing.checks.at(-1);
  const conditions = Object.entries(text.options.condition) as [SaplingCondition, string][];
  return (
    <fieldset class="sheet" aria-label={words.group(label)}>
      <h2>
        {label}
        <span class="soft small">
          {' '}
          {[noun === 'patch' ? words.patch : undefined, thing.species && speciesName(thing.species)]
            .filter((part) => part !== undefined)
            .join(', ')}
        </span>
      </h2>
      {last !== undefined && <p class="soft small">{words.again(text.options.condition[last.condition])}</p>}
      <div class="act-list two first-wide">
        {conditions.map(([condition, said]) => (
          <Act
            key={condition}
            disabled={busy || given}
            onTouch={() => {
              setGiven(true);
              setTimeout(() => setGiven(false), 1500);
              onAnswer(condition);
            }}
          >
            {said}
          </Act>
        ))}
      </div>
    </fieldset>
  );
}
