// Unpair this phone: said in one place, done in another.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { OneOf } from '../parts/Chips.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go } from '../way.ts';

const words = text.sending.phone;

export function Forget(): JSX.Element {
  const { engine, state } = useField();
  const form = useForm('forget', {});
  const forget = async () => {
    if (form.text('sure') !== 'yes') {
      form.refuse([{ field: 'sure', value: '', remedy: words.forgetNeedsSure }]);
      return;
    }
    const done = await engine.forget();
    if (!done.ok) {
      form.refuse([{ field: 'sure', value: '', remedy: done.why }]);
      return;
    }
    await engine.keepDraft('forget', undefined);
    go('sending');
  };
  return (
    <Frame
      title={words.forgetTitle}
      lead={words.forgetLead}
      form={form}
      foot={
        <div class="foot-row">
          <Act looks="large" onTouch={() => go('sending')}>
            {text.common.cancel}
          </Act>
          <Act looks="large grave" disabled={form.busy} onTouch={() => void forget()}>
            {words.forgetGo}
          </Act>
        </div>
      }
    >
      {state.outbox.waiting > 0 && <p class="trouble">{words.forgetWaiting(state.outbox.waiting)}</p>}
      <OneOf
        form={form}
        name="sure"
        label={words.forgetSure}
        options={[{ value: 'yes', words: text.common.yes }]}
      />
    </Frame>
  );
}
