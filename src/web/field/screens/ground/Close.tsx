// Close the opening: first what is still open in it, each with the way there; then a second yes where something is.
import type { JSX } from 'preact';
import { type OpenThings, openIn } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { type Form, useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { Chips, OneOf, optionsOf, YesNo } from '../parts/Chips.tsx';
import { TextField, Troubles, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { WhenField } from '../parts/WhenField.tsx';
import { go, type ScreenName } from '../way.ts';

const words = text.ground.close;

export function Close(): JSX.Element {
  const { stand } = useField().state.folded;
  const group = useGroup();
  const form = useForm(`close:${group?.id ?? ''}`, {});
  if (group === undefined)
    return (
      <Frame title={words.title} foot={<Act onTouch={() => go('group')}>{text.today.chooseTitle}</Act>}>
        <p>{words.noGroup}</p>
      </Frame>
    );
  const lines = linesOf(openIn(stand, group.id));
  const close = async () => {
    if (lines.length > 0 && form.text('sure') !== 'yes') {
      form.refuse([{ field: 'sure', value: '', remedy: words.needsSure }]);
      return;
    }
    if (await form.save({ kind: 'opening-closed', fields: { group: group.id } })) go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={text.today.inGroup(group.label)}
      form={form}
      foot={
        <Act looks="large full" symbol="opening" disabled={form.busy} onTouch={() => void close()}>
          {words.ask}
        </Act>
      }
    >
      {group.opening === 'closed' && <p class="trouble">{words.closed}</p>}
      <StillOpen form={form} lines={lines} />
      <Unfold label={words.details}>
        <OneOf form={form} name="slash" options={optionsOf(text.options.slash)} />
        <YesNo form={form} name="photosTaken" />
        <TextField form={form} name="note" long />
        <WhenField form={form} />
      </Unfold>
    </Frame>
  );
}

type Line = Readonly<{ words: string; way: ScreenName }>;

function linesOf(open: OpenThings): Line[] {
  const unchecked = open.uncheckedSaplings.length + open.uncheckedPatches.length;
  const all: readonly [number, (count: number) => string, ScreenName][] = [
    [open.hungUp.length, words.hungUp, 'cleared'],
    [open.hazards.length, words.hazards, 'gone'],
    [open.standing.length, words.standing, 'felled'],
    [unchecked, words.unchecked, 'check'],
  ];
  return all
    .filter(([count]) => count > 0)
    .map(([count, sentence, way]) => ({ words: sentence(count), way }));
}

function StillOpen({ form, lines }: Readonly<{ form: Form; lines: readonly Line[] }>): JSX.Element {
  if (lines.length === 0) return <p>{words.nothing}</p>;
  return (
    <section class="section">
      <h2>{words.lead}</h2>
      {lines.map((line) => (
        <Act key={line.way} looks="open-item" under={words.go} onTouch={() => go(line.way)}>
          {line.words}
        </Act>
      ))}
      <p class="soft">{words.asked}</p>
      <Chips
        label={words.sure}
        options={[{ value: 'yes', words: text.common.yes }]}
        isChosen={(value) => form.text('sure') === value}
        onTouch={(value) => form.set('sure', form.text('sure') === value ? '' : value)}
        under={<Troubles form={form} name="sure" />}
      />
    </section>
  );
}
