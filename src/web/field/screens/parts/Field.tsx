// Text that is typed with the phone's own keyboard, what is wrong with a field, and folding fields away.
import type { ComponentChildren, JSX } from 'preact';
import { useId } from 'preact/hooks';
import { text } from '../../text/index.ts';
import { type Form, troubleText } from '../form.ts';

type Asked = Readonly<{ form: Form; name: string; label?: string; hint?: string; long?: boolean }>;

/** A line, or a few lines, of text. */
export function TextField({ form, name, label = text.fields.called(name), hint, long }: Asked): JSX.Element {
  const id = useId();
  const wrong = form.troubleOf(name).length > 0;
  const shared = {
    id,
    value: form.text(name),
    autoComplete: 'off',
    'aria-invalid': wrong,
    'aria-describedby': `${id}-trouble`,
    onInput: (event: Event) => form.set(name, (event.currentTarget as HTMLInputElement).value),
  };
  return (
    <div class="field">
      <label class="label" for={id}>
        {label}
      </label>
      {hint !== undefined && <span class="soft small">{hint}</span>}
      {long ? <textarea {...shared} rows={3} /> : <input {...shared} type="text" />}
      <Troubles form={form} name={name} id={`${id}-trouble`} />
    </div>
  );
}

/** What is wrong with one field, right under it; what may have been meant can be touched. */
export function Troubles({
  form,
  name,
  id,
}: Readonly<{ form: Form; name: string; id?: string }>): JSX.Element {
  return (
    <div id={id}>
      {form.troubleOf(name).map((problem) => (
        <div key={problem.field}>
          <p class="trouble">{troubleText(problem)}</p>
          <div class="chips">
            {problem.choices?.map((choice) => (
              <button
                type="button"
                class="chip"
                key={choice.text}
                onClick={() => form.set(name, choice.text)}
              >
                {choice.label}
              </button>
            ))}
          </div>
        </div>
      ))}
    </div>
  );
}

/** Fields that are seldom needed, folded away. */
export function Unfold({
  label,
  open,
  children,
}: Readonly<{ label: string; open?: boolean; children: ComponentChildren }>): JSX.Element {
  return (
    <details class="unfold" open={open}>
      <summary>{label}</summary>
      <div class="unfolded">{children}</div>
    </details>
  );
}
