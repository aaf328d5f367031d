// How the phone itself is doing: its connection, its storage, its clock.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';

const words = text.sending;
/** Less than this between two clocks is no matter, milliseconds: the engine records what is farther off. */
const clockAgrees = 2 * 60_000;

export function Secure(): JSX.Element {
  const { state } = useField();
  return (
    <section class="section" aria-labelledby="connection">
      <h2 id="connection">{words.secure.title}</h2>
      <p class={state.secure ? 'soft' : 'trouble'}>
        {state.secure ? (state.thisMachine ? words.secure.here : words.secure.yes) : words.secure.no}
      </p>
      {!state.secure && location.pathname.startsWith('/field/') && (
        <a class="act quiet" href="/trust/">
          {words.secure.guide}
        </a>
      )}
    </section>
  );
}

export function Storage(): JSX.Element {
  const { engine, state } = useField();
  const { works, persisted, usedBytes, quotaBytes, full } = state.storage;
  const kept =
    persisted === undefined
      ? words.storage.unknown
      : persisted
        ? words.storage.persisted
        : words.storage.notPersisted;
  return (
    <section class="section" aria-labelledby="storage">
      <h2 id="storage">{words.storage.title}</h2>
      <p class={works ? 'soft' : 'trouble'}>{works ? words.storage.works : words.storage.broken}</p>
      {full && <p class="trouble">{words.storage.full}</p>}
      <p class="soft">{kept}</p>
      {usedBytes !== undefined && quotaBytes !== undefined && (
        <p class="soft">{words.storage.used(usedBytes, quotaBytes)}</p>
      )}
      {persisted === false && (
        <Act looks="quiet" onTouch={() => void engine.askToPersist()}>
          {words.storage.ask}
        </Act>
      )}
    </section>
  );
}

export function Clock(): JSX.Element {
  const { exchange } = useField().state;
  const { clockAhead: ahead, clockRecorded } = exchange;
  return (
    <section class="section" aria-labelledby="clock">
      <h2 id="clock">{words.clock.title}</h2>
      {ahead === undefined && <p class="soft">{words.clock.unknown}</p>}
      {ahead !== undefined && !isOff(ahead) && <p class="soft">{words.clock.good}</p>}
      {ahead !== undefined && isOff(ahead) && (
        <>
          <p class="trouble">{words.clock.ahead(ahead)}</p>
          <p class="soft">{words.clock.remedy}</p>
        </>
      )}
      {clockRecorded !== undefined && <p class="soft">{words.clock.recorded(clockRecorded)}</p>}
    </section>
  );
}

function isOff(ahead: number): boolean {
  return Math.abs(ahead) >= clockAgrees;
}

/** On the first screen, where a wrong clock is seen before more is written by it. */
export function ClockLine(): JSX.Element | null {
  const ahead = useField().state.exchange.clockAhead;
  if (ahead === undefined || !isOff(ahead)) return null;
  return (
    <div class="banner" role="status">
      <p>{words.clock.ahead(ahead)}</p>
      <p class="soft">{words.clock.remedy}</p>
    </div>
  );
}
