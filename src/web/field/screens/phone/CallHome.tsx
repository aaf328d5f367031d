// The call that somebody expects: by when, overdue or not, that it was made, and that one is expected from now on.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { momentIn } from '../../../../events/index.ts';
import { callOverdue, instantOf, openCalls } from '../../../../stand/index.ts';
import { clock, dayAndTime, figure, text } from '../../text/index.ts';
import { useField, useNow } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf } from '../parts/Chips.tsx';
import { TextField, Unfold } from '../parts/Field.tsx';

const words = text.danger.emergency;
const hour = 3_600_000;
const hours = [1, 2, 3, 4, 6, 8] as const;

export function CallHome(): JSX.Element {
  const { engine, state } = useField();
  const { stand } = state.folded;
  const now = useNow();
  const late = callOverdue(stand, now);
  const call = late ?? openCalls(stand)[0];
  return (
    <section class="section" aria-labelledby="call-home">
      <h2 id="call-home">{words.expectTitle}</h2>
      {call === undefined ? (
        <p>{words.nobody}</p>
      ) : (
        <p class={late === undefined ? 'sheet' : 'overdue'} role={late === undefined ? undefined : 'alert'}>
          {late === undefined
            ? words.expected(dayAndTime(instantOf(call.due)))
            : words.overdue(dayAndTime(instantOf(late.due)), text.common.span(now - instantOf(late.due)))}
          {call.expectedBy !== undefined &&
            ` (${words.from(engine.sealedText(call.expectedBy) ?? words.notHere)})`}
        </p>
      )}
      {call !== undefined && <Made />}
      <Unfold label={words.expect}>
        <Expect />
      </Unfold>
    </section>
  );
}

/** Two touches: one that says it by mistake would end the watch over somebody. */
function Made(): JSX.Element {
  const [asked, setAsked] = useState(false);
  const form = useForm('call-made', {});
  if (!asked) return <Act onTouch={() => setAsked(true)}>{words.made}</Act>;
  return (
    <div class="sheet settles">
      <TextField form={form} name="note" />
      <Act looks="full" disabled={form.busy} onTouch={() => void form.save({ kind: 'call-made' })}>
        {words.madeSure}
      </Act>
      <Act looks="quiet" onTouch={() => setAsked(false)}>
        {text.common.cancel}
      </Act>
    </div>
  );
}

function Expect(): JSX.Element {
  const now = useNow();
  const form = useForm('call-expected', { hours: '2' });
  const due = now + Number(form.text('hours')) * hour;
  const save = () => {
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
    const at = momentIn(zone, Math.round(due / 60_000) * 60_000);
    return form.save({ kind: 'call-expected', fields: { due: { at, precision: 'minute' } } });
  };
  return (
    <>
      <p class="soft">{words.lead}</p>
      <OneOf
        form={form}
        name="hours"
        label={words.expectBy}
        options={hours.map((count) => ({ value: String(count), words: words.hours(figure(count)) }))}
      />
      <TextField form={form} name="expectedBy" label={words.who} />
      <Act looks="full" disabled={form.busy || form.text('hours') === ''} onTouch={() => void save()}>
        {words.expectSave(clock(due))}
      </Act>
    </>
  );
}
