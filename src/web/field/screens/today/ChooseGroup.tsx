// The group that is worked in: chosen, or laid out here and now.
import type { JSX } from 'preact';
import { type Group, type Stand, viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup, useSetting } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go } from '../way.ts';

const words = text.today;

export function ChooseGroup(): JSX.Element {
  const { state } = useField();
  const inHand = useGroup();
  const [, setGroup] = useSetting<string>('group', '');
  const { stand } = state.folded;
  const groups = [...stand.groups.values()].reverse();
  const take = (id: string) => {
    setGroup(id);
    go('today');
  };
  return (
    <Frame title={words.chooseTitle} lead={words.chooseLead}>
      <div class="act-list">
        {groups.map((group) => (
          <Act
            key={group.id}
            looks={`left ${group.id === inHand?.id ? 'full' : ''}`}
            pressed={group.id === inHand?.id}
            under={countsOf(stand, group)}
            onTouch={() => take(group.id)}
          >
            {group.label}
          </Act>
        ))}
        <Act looks="quiet left" pressed={inHand === undefined} onTouch={() => take('')}>
          {words.none}
        </Act>
      </div>
      <Unfold label={words.newGroup} open={groups.length === 0}>
        <NewGroup onLaidOut={take} />
      </Unfold>
    </Frame>
  );
}

function countsOf(stand: Stand, group: Group): string {
  const { standingCut, stems } = viewGroup(stand, [], group);
  const block = group.block === undefined ? undefined : stand.blocks.get(group.block)?.name;
  return [block, words.counts(standingCut.length, stems.length)].filter(Boolean).join(': ');
}

function NewGroup({ onLaidOut }: Readonly<{ onLaidOut: (id: string) => void }>): JSX.Element {
  const { engine, state } = useField();
  const form = useForm('group', {});
  const blocks = [...state.folded.stand.blocks.values()];
  const lay = async () => {
    const block = await blockOf();
    if (block === undefined) return;
    const saved = await form.save({ kind: 'group-laid-out', fields: block === '' ? {} : { block } });
    if (saved?.identity !== undefined) onLaidOut(saved.identity);
  };
  /** The block chosen, or the one named here; empty for none, undefined when it could not be saved. */
  const blockOf = async (): Promise<string | undefined> => {
    const name = form.text('name').trim();
    if (name === '') return form.text('block');
    const saved = await engine.save({ kind: 'block-laid-out', fields: { name } });
    if (!saved.ok) {
      form.refuse(saved.problems);
      return undefined;
    }
    form.setAll({ name: '', block: saved.identity ?? '' });
    return saved.identity;
  };
  return (
    <>
      <TextField form={form} name="label" label={words.newGroupLabel} />
      {blocks.length > 0 && (
        <OneOf
          form={form}
          name="block"
          label={words.newBlock}
          options={blocks.map(({ id, name }) => ({ value: id, words: name }))}
        />
      )}
      <TextField form={form} name="name" label={words.newBlockName} />
      <TextField form={form} name="reason" />
      <Act looks="full" disabled={form.busy} onTouch={() => void lay()}>
        {words.lay}
      </Act>
    </>
  );
}
