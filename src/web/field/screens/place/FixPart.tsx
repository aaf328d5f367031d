// A fix while it is taken and after: how well it is known, how old it is, and what is wrong, in words.
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import type { JsonValue } from '../../../../events/index.ts';
import { lengthIn } from '../../../../measure/index.ts';
import { figure, text } from '../../text/index.ts';
import { useField, useNow, useSetting, useUnits } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { asText } from '../values.ts';
import { ageOf, poorAbove, staleAfter } from './averaging.ts';
import { type Fixing, useFixing } from './fixing.ts';
import { fixOf } from './value.ts';

const words = text.position;

type Asked = Readonly<{ value: JsonValue | undefined; onFix: (fix: JsonValue) => void }>;

/** Over how long a fix is averaged on this phone, seconds. */
export function useAverageOver(): [number, (seconds: number) => void] {
  return useSetting<number>('averageOver', 20);
}

export function FixPart({ value, onFix }: Asked): JSX.Element {
  const [seconds] = useAverageOver();
  const { clockAhead } = useField().state.exchange;
  const fixing = useFixing(seconds, clockAhead, (mean) => onFix(fixOf(mean, seconds)));
  const taken = takenOf(value);
  useEffect(() => {
    if (taken === undefined) fixing.start();
  }, []);
  return (
    <div class="sheet" role="status">
      {taken === undefined ? (
        fixing.running && fixing.trouble === undefined && <p>{words.waiting}</p>
      ) : (
        <Taken {...taken} />
      )}
      {fixing.running && fixing.mean !== undefined && (
        <p class="soft">{words.averaging(fixing.mean.fixes, fixing.secondsLeft)}</p>
      )}
      <Troubled fixing={fixing} />
      {fixing.running && fixing.mean !== undefined ? (
        <Act onTouch={fixing.stop}>{words.stop}</Act>
      ) : (
        !fixing.running && (
          <Act symbol="place" onTouch={fixing.start}>
            {words.again}
          </Act>
        )
      )}
    </div>
  );
}

function Troubled({ fixing }: Readonly<{ fixing: Fixing }>): JSX.Element {
  return (
    <>
      {fixing.staleGiven && <p class="trouble">{words.staleFix}</p>}
      {fixing.trouble !== undefined && <p class="trouble">{words[fixing.trouble]}</p>}
    </>
  );
}

type TakenFix = Readonly<{ at: number; metres: number; fixes: number }>;

/** What a fix in a draft says of itself. */
function takenOf(value: JsonValue | undefined): TakenFix | undefined {
  if (typeof value !== 'object' || value === null || !('fixedAt' in value)) return undefined;
  const { fixedAt, accuracy, source } = value as Readonly<Record<string, JsonValue>>;
  const metres = (accuracy as Readonly<{ value: string }> | undefined)?.value;
  const fixes = /\d+/.exec(asText(source))?.[0];
  return { at: Date.parse(asText(fixedAt)), metres: Number(metres), fixes: Number(fixes ?? 1) };
}

function Taken({ at, metres, fixes }: TakenFix): JSX.Element {
  const now = useNow(1000);
  const units = useUnits();
  const age = ageOf(at, now, useField().state.exchange.clockAhead);
  const accuracy =
    units === 'us' ? `${figure(lengthIn(metres, 'm', 'ft'))} ft` : `${figure(metres, metres < 10 ? 1 : 0)} m`;
  return (
    <>
      <p>{words.taken(accuracy, fixes, text.common.span(age))}</p>
      {metres > poorAbove && <p class="trouble">{words.poor(accuracy)}</p>}
      {age > staleAfter && <p class="trouble">{words.stale(text.common.span(age))}</p>}
    </>
  );
}
