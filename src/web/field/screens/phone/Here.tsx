// Where this phone is now, to be read out to whoever sends help.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { JsonValue } from '../../../../events/index.ts';
import { text } from '../../text/index.ts';
import { Act } from '../parts/Act.tsx';
import { FixPart } from '../place/FixPart.tsx';
import { Notations } from './Notations.tsx';

const words = text.danger.emergency;

export function Here(): JSX.Element {
  const [looking, setLooking] = useState(false);
  const [fix, setFix] = useState<JsonValue | undefined>(undefined);
  const at = lonLatOf(fix);
  return (
    <section class="section" aria-label={words.here}>
      {looking ? (
        <>
          <h2>{words.here}</h2>
          {at !== undefined && (
            <>
              <p class="soft small">{words.hereHelp}</p>
              <Notations at={at} />
            </>
          )}
          <FixPart value={fix} onFix={setFix} />
        </>
      ) : (
        <Act symbol="place" onTouch={() => setLooking(true)}>
          {words.here}
        </Act>
      )}
    </section>
  );
}

function lonLatOf(fix: JsonValue | undefined): { lon: number; lat: number } | undefined {
  if (typeof fix !== 'object' || fix === null || !('lat' in fix)) return undefined;
  const { lat, lon } = fix as Readonly<Record<string, JsonValue>>;
  return { lat: Number(lat), lon: Number(lon) };
}
