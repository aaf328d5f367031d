// Set a stake: a point that others are measured from.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { PlaceField } from '../place/PlaceField.tsx';
import { go } from '../way.ts';

const words = text.ground.stake;

/** The letter or number after the last stake's: A -> B, 3 -> 4; Z and names have none. */
function labelAfter(last: string | undefined): string {
  if (last === undefined) return 'A';
  if (/^\d+$/.test(last)) return String(Number(last) + 1);
  return /^[A-Ya-y]$/.test(last) ? String.fromCharCode(last.charCodeAt(0) + 1) : '';
}

export function Stake(): JSX.Element {
  const { stand } = useField().state.folded;
  const last = [...stand.stakes.values()].at(-1)?.label;
  const form = useForm('stake', { label: labelAfter(last) });
  const save = async () => {
    if (await form.save({ kind: 'stake-set' })) go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={words.help}
      form={form}
      foot={
        <Act looks="large full" symbol="stake" disabled={form.busy} onTouch={() => void save()}>
          {words.save}
        </Act>
      }
    >
      <TextField form={form} name="label" label={words.label} />
      <PlaceField form={form} />
      <TextField form={form} name="what" label={words.what} />
    </Frame>
  );
}
