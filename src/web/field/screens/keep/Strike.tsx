// Take an entry back: a reason in one place, the strike in another. The log keeps what was struck.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf } from '../parts/Chips.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go } from '../way.ts';
import { namesFor, sentenceOf } from './sentence.ts';

const words = text.keep.strike;

export function Strike({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { engine, state } = useField();
  const { folded } = state;
  const entry = folded.entries.get(about.entry ?? '');
  const form = useForm(`strike:${about.entry ?? ''}`, {});
  if (entry === undefined) return <Frame title={words.title} lead={text.keep.saved.detail.unknown} />;
  const struck = folded.standings.get(entry.id) === 'struck';
  const strike = async () => {
    const reason = form.text('other').trim() || form.text('reason');
    if (reason === '') form.refuse([{ field: 'reason', value: '', remedy: words.needsReason }]);
    else if (await form.save({ kind: 'entry-struck', fields: { strikes: entry.id, reason } })) go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={words.lead}
      form={form}
      foot={
        struck ? (
          <p>{words.already}</p>
        ) : (
          <div class="foot-row">
            <Act looks="large" onTouch={() => go('today')}>
              {text.common.cancel}
            </Act>
            <Act looks="large grave" symbol="strike" disabled={form.busy} onTouch={() => void strike()}>
              {words.strike}
            </Act>
          </div>
        )
      }
    >
      <h2>{sentenceOf(folded, entry, namesFor(engine, folded))}</h2>
      <OneOf
        form={form}
        name="reason"
        label={words.why}
        options={words.reasons.map((reason) => ({ value: reason, words: reason }))}
      />
      <TextField form={form} name="other" label={words.other} />
    </Frame>
  );
}
