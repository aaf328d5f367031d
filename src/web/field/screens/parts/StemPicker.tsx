// Choosing a stem: the likely ones as large buttons, the others by their tag.
import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import { speciesName } from '../../../../events/index.ts';
import { type Stem, stemLabel, withUnit } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from './Act.tsx';

const most = 12;

/** What is known of a stem beside its tag: "scarlet oak, 14.2 in". */
export function stemDetails(stem: Stem): string {
  return [
    stem.species === undefined ? undefined : speciesName(stem.species),
    stem.dbh === undefined ? undefined : withUnit(stem.dbh),
  ]
    .filter((part) => part !== undefined)
    .join(', ');
}

type Asked = Readonly<{
  /** The likely ones, the likeliest first. */
  likely: readonly Stem[];
  onChoose: (stem: Stem) => void;
  /** What stands there when none is likely. */
  none?: string;
}>;

export function StemPicker({ likely, onChoose, none }: Asked): JSX.Element {
  const { state } = useField();
  const [search, setSearch] = useState('');
  const id = useId();
  const found = search === '' ? likely : bySearch(state.folded.stand.stems.values(), search);
  return (
    <div class="section">
      {search === '' && likely.length === 0 && none !== undefined && <p class="soft">{none}</p>}
      <div class="act-list two">
        {found.slice(0, most).map((stem) => (
          <Act key={stem.id} under={stemDetails(stem)} onTouch={() => onChoose(stem)}>
            {stemLabel(stem)}
          </Act>
        ))}
      </div>
      {search !== '' && found.length === 0 && <p class="trouble">{text.stems.felled.noMatch}</p>}
      <div class="field">
        <label class="label" for={id}>
          {text.stems.felled.other}
        </label>
        <input
          id={id}
          type="search"
          autoComplete="off"
          value={search}
          onInput={(event) => setSearch(event.currentTarget.value.trim())}
        />
      </div>
    </div>
  );
}

/** Stems whose tag, now or earlier, begins with what was typed; the exact one first. */
function bySearch(stems: Iterable<Stem>, search: string): Stem[] {
  const key = search.toLowerCase();
  const tagsOf = ({ tag, earlierTags }: Stem) => [tag ?? '', ...earlierTags].map((one) => one.toLowerCase());
  return [...stems]
    .filter((stem) => tagsOf(stem).some((tag) => tag.startsWith(key)))
    .sort((a, b) => Number(tagsOf(b).includes(key)) - Number(tagsOf(a).includes(key)));
}
