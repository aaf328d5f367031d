// Settings of this phone; none of them changes what was recorded.
import type { JSX } from 'preact';
import { type Light, shine } from '../../look/index.ts';
import { text } from '../../text/index.ts';
import { useSetting, useUnits } from '../context.ts';
import { useKeepPlace, usePhotoEdge } from '../keep/Photo.tsx';
import { Chips } from '../parts/Chips.tsx';
import { Frame } from '../parts/Frame.tsx';
import { useAverageOver } from '../place/FixPart.tsx';
import { canStayAwake } from './awake.ts';

const words = text.phone.settings;
const edges = [1200, 1600, 2400] as const;
const spans = [10, 20, 60] as const;

export function Settings(): JSX.Element {
  const units = useUnits();
  const [, setUnits] = useSetting<string>('units', units);
  const [light, setLight] = useSetting<string>('light', 'auto');
  const [awake, setAwake] = useSetting<boolean>('awake', false);
  const [edge, setEdge] = usePhotoEdge();
  const [keepPlace, setKeepPlace] = useKeepPlace();
  const [seconds, setSeconds] = useAverageOver();
  return (
    <Frame title={words.title}>
      <Chips
        label={words.units}
        options={[
          { value: 'us', words: words.us },
          { value: 'metric', words: words.metric },
        ]}
        isChosen={(value) => value === units}
        onTouch={setUnits}
        under={<p class="soft small">{words.unitsHelp}</p>}
      />
      <Chips
        label={words.light}
        options={(['auto', 'sun', 'dusk'] as const).map((value) => ({ value, words: words[value] }))}
        isChosen={(value) => value === light}
        onTouch={(value) => {
          setLight(value);
          shine(value as Light);
        }}
      />
      <Chips
        label={words.awake}
        options={[
          { value: 'yes', words: words.awakeOn },
          { value: 'no', words: words.awakeOff },
        ]}
        isChosen={(value) => (value === 'yes') === awake}
        onTouch={(value) => setAwake(value === 'yes')}
        {...(canStayAwake() ? {} : { under: <p class="trouble">{words.awakeNone}</p> })}
      />
      <Chips
        label={words.photoEdge}
        options={edges.map((pixels) => ({ value: String(pixels), words: words.edge(pixels) }))}
        isChosen={(value) => Number(value) === edge}
        onTouch={(value) => setEdge(Number(value))}
      />
      <Chips
        label={words.place}
        options={[
          { value: 'yes', words: words.placeKeep },
          { value: 'no', words: words.placeStrip },
        ]}
        isChosen={(value) => (value === 'yes') === keepPlace}
        onTouch={(value) => setKeepPlace(value === 'yes')}
        under={<p class="soft small">{words.placeHelp}</p>}
      />
      <Chips
        label={words.average}
        options={spans.map((span) => ({ value: String(span), words: text.position.seconds(span) }))}
        isChosen={(value) => Number(value) === seconds}
        onTouch={(value) => setSeconds(Number(value))}
      />
    </Frame>
  );
}
