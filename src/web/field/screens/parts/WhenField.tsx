// When it happened: now, or earlier by the phone's clock.
import type { JSX } from 'preact';
import { useId } from 'preact/hooks';
import { text } from '../../text/index.ts';
import type { Form } from '../form.ts';
import { Troubles } from './Field.tsx';

export function WhenField({ form }: Readonly<{ form: Form }>): JSX.Element {
  const id = useId();
  return (
    <div class="field">
      <label class="label" for={id}>
        {text.fields.when.at}
      </label>
      <span class="soft small">
        {text.fields.when.now}, {text.common.optional}
      </span>
      <input
        id={id}
        type="datetime-local"
        value={form.text('when')}
        onInput={(event) => form.set('when', event.currentTarget.value)}
      />
      <Troubles form={form} name="happenedAt" />
    </div>
  );
}
