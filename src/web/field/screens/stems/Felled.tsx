// A stem is down: which one, and whether it lies or hangs. The two answers save; the rest unfolds.
import type { JSX } from 'preact';
import { v7 } from 'uuid';
import { type Stem, stemLabel, viewGroup } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { type Form, useForm } from '../form.ts';
import { AimByPlan } from '../later.tsx';
import { Act } from '../parts/Act.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LengthField } from '../parts/NumberField.tsx';
import { SpeciesField } from '../parts/SpeciesField.tsx';
import { StemField } from '../parts/StemField.tsx';
import { StemPicker, stemDetails } from '../parts/StemPicker.tsx';
import { go, goInstead } from '../way.ts';
import { FelledMore } from './FelledMore.tsx';
import { layOf } from './lay.ts';
import { byNearestTag } from './nextTag.ts';

const words = text.stems.felled;

/** The stems of the group in hand that are marked to be cut and stand, the nearest tag first. */
export function useToCut(): Stem[] {
  const { engine, state } = useField();
  const group = useGroup();
  const { stand, findings } = state.folded;
  const all =
    group === undefined
      ? [...stand.stems.values()].filter(
          ({ mark, status }) => mark === 'cut' && (status === 'standing' || status === 'dead'),
        )
      : viewGroup(stand, findings, group).standingCut;
  const { tag } = engine.remembered('felled');
  return byNearestTag(all, typeof tag === 'string' ? tag : undefined);
}

export function Felled({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { stem } = about;
  if (stem === undefined) return <Choose />;
  return <Fell key={stem} stem={stem} isNew={about.new === 'yes'} />;
}

function Choose(): JSX.Element {
  const toCut = useToCut();
  return (
    <Frame
      title={words.choose}
      lead={words.chooseHelp}
      foot={
        <Act symbol="down" onTouch={() => goInstead('felled', { stem: v7(), new: 'yes' })}>
          {words.notMarked}
        </Act>
      }
    >
      <StemPicker likely={toCut} none={words.none} onChoose={({ id }) => goInstead('felled', { stem: id })} />
    </Frame>
  );
}

function Fell({ stem: id, isNew }: Readonly<{ stem: string; isNew: boolean }>): JSX.Element {
  const { engine, state } = useField();
  const { stand } = state.folded;
  const group = useGroup();
  const stem = stand.stems.get(id);
  const form = useForm(isNew ? 'felled:new' : `felled:${id}`, {});
  const likely = useToCut().filter((one) => one.id !== id);
  const fell = async (came: 'down' | 'hung-up') => {
    const lay = layOf(form.values);
    if (!lay.ok) {
      form.refuse([lay.problem]);
      return;
    }
    const hungOn = came === 'hung-up' ? form.text('hungOn') : undefined;
    const asAimed = form.text('layHow') === 'aimed' ? 'yes' : undefined;
    const fields = { stem: id, came, hungOn, lay: lay.lay, asAimed };
    const saved = await form.save({
      kind: 'stem-felled',
      fields: isNew && group !== undefined ? { ...fields, group: group.id } : fields,
    });
    if (!saved) return;
    await engine.remember('felled', { tag: stem?.tag ?? form.text('tag') });
    if (came === 'down') goInstead('rot', { stem: id });
    else go('today');
  };
  return (
    <Frame
      title={isNew ? words.notMarkedTitle : words.chosen(stemLabel(stem))}
      lead={stem === undefined ? undefined : stemDetails(stem)}
      form={form}
      foot={
        <div class="foot-row">
          <Act looks="large full" symbol="down" disabled={form.busy} onTouch={() => void fell('down')}>
            {words.down}
          </Act>
          <Act looks="large grave" symbol="hungUp" disabled={form.busy} onTouch={() => void fell('hung-up')}>
            {words.hungUp}
          </Act>
        </div>
      }
    >
      {stem?.mark === 'leave' && <p class="trouble">{words.leaveTree}</p>}
      {stem?.felling !== undefined && <p class="trouble">{words.already}</p>}
      {isNew ? <NeverMarked form={form} /> : <AimByPlan stem={id} form={form} />}
      <FelledMore
        form={form}
        hungOn={
          <StemField
            form={form}
            name="hungOn"
            label={words.hungOn}
            none={words.hungOnUnknown}
            likely={likely}
          />
        }
      />
      <Act looks="quiet" onTouch={() => goInstead('felled')}>
        {words.another}
      </Act>
    </Frame>
  );
}

function NeverMarked({ form }: Readonly<{ form: Form }>): JSX.Element {
  return (
    <>
      <TextField form={form} name="tag" />
      <SpeciesField form={form} />
      <LengthField form={form} name="dbh" part="diameter" />
    </>
  );
}
