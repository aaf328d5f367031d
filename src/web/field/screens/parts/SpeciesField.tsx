// Species: the ones marked most in this block as chips, any other by name, symbol or number.
import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import { readSpecies, type SpeciesEntered, speciesName } from '../../../../events/index.ts';
import { blockOfStem, type Stand } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import type { Form } from '../form.ts';
import { Troubles } from './Field.tsx';

const most = 6;

export function SpeciesField({
  form,
  name = 'species',
}: Readonly<{ form: Form; name?: string }>): JSX.Element {
  const { state } = useField();
  const block = useGroup()?.block;
  const [searching, setSearching] = useState(false);
  const chosen = entered(form.values[name]);
  const used = mostUsed(state.folded.stand, block, chosen);
  const choose = (species: SpeciesEntered | undefined) => {
    form.set(name, species);
    setSearching(false);
  };
  return (
    <fieldset class="field">
      <legend class="label">{text.fields.called(name)}</legend>
      <div class="chips">
        {used.map((species) => {
          const is = chosen !== undefined && same(species, chosen);
          return (
            <button
              type="button"
              key={species.code}
              class={`chip ${is ? 'chosen' : ''}`}
              aria-pressed={is}
              onClick={() => choose(is ? undefined : species)}
            >
              {speciesName(species)}
            </button>
          );
        })}
        <button type="button" class="chip" aria-expanded={searching} onClick={() => setSearching(!searching)}>
          {text.fields.species.search}
        </button>
      </div>
      {searching && <Search onChoose={choose} />}
      <Troubles form={form} name={name} />
    </fieldset>
  );
}

function Search({ onChoose }: Readonly<{ onChoose: (species: SpeciesEntered) => void }>): JSX.Element {
  const id = useId();
  const [typed, setTyped] = useState('');
  const reading = typed.trim() === '' ? undefined : readSpecies(typed);
  const candidates = reading?.ok === false ? reading.candidates : [];
  return (
    <div class="sheet settles">
      <label class="label" for={id}>
        {text.fields.species.searchHint}
      </label>
      <input
        id={id}
        type="search"
        autoComplete="off"
        value={typed}
        onInput={(event) => setTyped(event.currentTarget.value)}
      />
      <div class="chips">
        {reading?.ok && (
          <button type="button" class="chip" onClick={() => onChoose(reading.value)}>
            {text.fields.species.use(speciesName(reading.value))}
          </button>
        )}
        {candidates.map((row) => (
          <button
            type="button"
            class="chip"
            key={row.symbol}
            onClick={() => onChoose({ text: row.common, list: 'us', code: row.symbol })}
          >
            {row.common}
          </button>
        ))}
      </div>
      {reading?.ok === false && candidates.length === 0 && <p class="trouble">{reading.remedy}</p>}
    </div>
  );
}

/** The species marked most in a block (everywhere, without one), the chosen one among them. */
function mostUsed(
  stand: Stand,
  block: string | undefined,
  chosen: SpeciesEntered | undefined,
): SpeciesEntered[] {
  const counts = new Map<string, { species: SpeciesEntered; count: number }>();
  for (const stem of stand.stems.values()) {
    const { species } = stem;
    if (species === undefined) continue;
    if (block !== undefined && blockOfStem(stem, stand) !== block) continue;
    const key = `${species.list}:${species.code}`;
    const known = counts.get(key);
    if (known) known.count += 1;
    else counts.set(key, { species, count: 1 });
  }
  const often = [...counts.values()].sort((a, b) => b.count - a.count).map(({ species }) => species);
  const shown = often.slice(0, most);
  return chosen === undefined || shown.some((one) => same(one, chosen)) ? shown : [chosen, ...shown];
}

function same(one: SpeciesEntered, other: SpeciesEntered): boolean {
  return one.list === other.list && one.code === other.code;
}

function entered(value: unknown): SpeciesEntered | undefined {
  return typeof value === 'object' && value !== null && 'code' in value
    ? (value as SpeciesEntered)
    : undefined;
}
