// What is open: stems that hang, hazards, and saplings nobody has looked at since stems came down. Large, and first.
import type { JSX } from 'preact';
import {
  dangersIn,
  type Group,
  hazardWords,
  openIn,
  saplingLabel,
  stemLabel,
} from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { go } from '../way.ts';

const words = text.today;

export function OpenThings({ group }: Readonly<{ group: Group | undefined }>): JSX.Element {
  const { stand } = useField().state.folded;
  const { hungUp, hazards } = dangersIn(stand);
  const unchecked = uncheckedIn(group, stand);
  if (hungUp.length + hazards.length + unchecked.length === 0) return <p class="soft">{words.nothingOpen}</p>;
  return (
    <section class="section" aria-labelledby="open-things">
      <h2 id="open-things">{words.openTitle}</h2>
      {hungUp.map((stem) => {
        const on = stem.felling?.hungOn;
        const where = on === undefined ? '' : ` ${words.hungIn(stemLabel(stand.stems.get(on)))}`;
        return (
          <Act
            key={stem.id}
            looks="open-item"
            symbol="hungUp"
            under={words.hungUpUnder}
            onTouch={() => go('cleared', { stem: stem.id })}
          >
            {words.hungUp(stemLabel(stem))}
            {where}
          </Act>
        );
      })}
      {hazards.map((hazard) => (
        <Act
          key={hazard.id}
          looks="open-item"
          symbol="hazard"
          under={words.hazardUnder}
          onTouch={() => go('gone', { hazard: hazard.id })}
        >
          {hazardWords(stand, hazard)}
        </Act>
      ))}
      {unchecked.length > 0 && (
        <Act
          looks="open-item"
          symbol="sapling"
          under={`${unchecked.join(', ')}. ${words.uncheckedUnder}`}
          onTouch={() => go('check')}
        >
          {words.unchecked(unchecked.length)}
        </Act>
      )}
    </section>
  );
}

type Stand = ReturnType<typeof useField>['state']['folded']['stand'];

/** Labels of what was not checked; before the first stem of the group is down there is nothing to check. */
function uncheckedIn(group: Group | undefined, stand: Stand): string[] {
  if (group === undefined || group.opening === 'not cut yet') return [];
  const { uncheckedSaplings, uncheckedPatches } = openIn(stand, group.id);
  return [...uncheckedSaplings, ...uncheckedPatches].map((one) => saplingLabel(one));
}
