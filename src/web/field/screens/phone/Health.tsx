// How the phone itself is doing: its connection, its storage, its clock.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';

const words = text.sending;
/** Less than this between two clocks is no matter. Milliseconds. */
const clockAgrees = 60_000;

export function Secure(): JSX.Element {
  const { state } = useField();
  return (
    <section class="section" aria-labelledby="connection">
      <h2 id="connection">{words.secure.title}</h2>
      <p class={state.secure ? 'soft' : 'trouble'}>{state.secure ? words.secure.yes : words.secure.no}</p>
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
  const { engine, state } = useField();
  const [recorded, setRecorded] = useState(false);
  const ahead = state.exchange.clockAhead;
  const record = async (milliseconds: number) => {
    const seconds = `${Math.round(milliseconds / 1000)} s`;
    const saved = await engine.save({ kind: 'clock-offset-noted', fields: { ahead: seconds } });
    setRecorded(saved.ok);
  };
  const off = ahead !== undefined && Math.abs(ahead) >= clockAgrees;
  return (
    <section class="section" aria-labelledby="clock">
      <h2 id="clock">{words.clock.title}</h2>
      {ahead === undefined && <p class="soft">{words.clock.unknown}</p>}
      {ahead !== undefined && !off && <p class="soft">{words.clock.good}</p>}
      {ahead !== undefined && off && (
        <>
          <p class="trouble">{words.clock.ahead(ahead)}</p>
          <p class="soft">{words.clock.remedy}</p>
          <Act disabled={recorded} onTouch={() => void record(ahead)}>
            {recorded ? words.clock.recorded : words.clock.record}
          </Act>
        </>
      )}
    </section>
  );
}
