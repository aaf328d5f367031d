// Choices as chips: one of several (touch again to take it out) or several of several.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import type { Form } from '../form.ts';
import { Troubles } from './Field.tsx';

export type Option = Readonly<{ value: string; words: string }>;

/** The options of a record of words, in its order. */
export function optionsOf(words: Readonly<Record<string, string>>): Option[] {
  return Object.entries(words).map(([value, said]) => ({ value, words: said }));
}

type Asked = Readonly<{ form: Form; name: string; options: readonly Option[]; label?: string }>;

/** One of several; kept in the draft as its value. */
export function OneOf({ form, name, options, label = text.fields.called(name) }: Asked): JSX.Element {
  const chosen = form.text(name);
  return (
    <Chips
      label={label}
      options={options}
      isChosen={(value) => value === chosen}
      onTouch={(value) => form.set(name, value === chosen ? undefined : value)}
      under={<Troubles form={form} name={name} />}
    />
  );
}

/** Several of several; kept in the draft as a list. */
export function SomeOf({ form, name, options, label = text.fields.called(name) }: Asked): JSX.Element {
  const value = form.values[name];
  const chosen = Array.isArray(value) ? (value as readonly string[]) : [];
  return (
    <Chips
      label={label}
      options={options}
      isChosen={(one) => chosen.includes(one)}
      onTouch={(one) =>
        form.set(name, chosen.includes(one) ? chosen.filter((other) => other !== one) : [...chosen, one])
      }
      under={<Troubles form={form} name={name} />}
    />
  );
}

/** Yes or no, or not said. */
export function YesNo({ form, name }: Readonly<{ form: Form; name: string }>): JSX.Element {
  return (
    <OneOf
      form={form}
      name={name}
      options={[
        { value: 'yes', words: text.common.yes },
        { value: 'no', words: text.common.no },
      ]}
    />
  );
}

type Bare = Readonly<{
  label: string;
  options: readonly Option[];
  isChosen: (value: string) => boolean;
  onTouch: (value: string) => void;
  under?: JSX.Element;
}>;

/** Chips that stand in no draft. */
export function Chips({ label, options, isChosen, onTouch, under }: Bare): JSX.Element {
  return (
    <fieldset class="field">
      <legend class="label">{label}</legend>
      <div class="chips">
        {options.map(({ value, words }) => (
          <button
            type="button"
            key={value}
            class={`chip ${isChosen(value) ? 'chosen' : ''}`}
            aria-pressed={isChosen(value)}
            onClick={() => onTouch(value)}
          >
            {words}
          </button>
        ))}
      </div>
      {under}
    </fieldset>
  );
}
