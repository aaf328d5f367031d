// Sending: what waits, what the logbook said last, what needs attention, files, and how the phone is doing.
import type { JSX } from 'preact';
import type { FieldState } from '../../engine/port.ts';
import { text } from '../../text/index.ts';
import { useField, useNow } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { Frame } from '../parts/Frame.tsx';
import { UpdateLine } from '../today/UpdateLine.tsx';
import { go } from '../way.ts';
import { Files } from './Files.tsx';
import { Clock, Secure, Storage } from './Health.tsx';

const words = text.sending;

export function Sending(): JSX.Element {
  const { engine, state } = useField();
  const { phone, exchange } = state;
  const busy = exchange.is === 'sending';
  return (
    <Frame
      title={words.title}
      foot={
        phone.paired && (
          <Act looks="large full" symbol="send" disabled={busy} onTouch={() => void engine.exchange()}>
            {busy ? words.busy : words.now}
          </Act>
        )
      }
    >
      <UpdateLine />
      <Waiting />
      <Attention />
      <Files />
      <ThisPhone />
      <Storage />
      <Clock />
      <Secure />
    </Frame>
  );
}

function Waiting(): JSX.Element {
  const { outbox, exchange, phone } = useField().state;
  const now = useNow();
  return (
    <section class="sheet" role="status">
      <h2>{words.waitingTitle}</h2>
      <p class="tag-large numbers">{words.waiting(outbox.waiting)}</p>
      {outbox.oldest !== undefined && (
        <p>{words.oldest(text.common.span(Math.max(0, now - outbox.oldest)))}</p>
      )}
      {outbox.photos > 0 && <p>{words.photos(outbox.photos)}</p>}
      <p class="soft">{words.sent(outbox.sent)}</p>
      {phone.paired ? (
        <>
          {exchange.is !== 'idle' && (
            <p class={exchange.is === 'sending' ? '' : 'trouble'}>{words.state[exchange.is]}</p>
          )}
          {exchange.why !== undefined && <p>{exchange.why}</p>}
          <p class="soft">{exchange.last === undefined ? words.never : words.last(exchange.last)}</p>
          {exchange.next !== undefined && <p class="soft">{words.next(exchange.next)}</p>}
        </>
      ) : (
        <p class="soft">{words.filesOnly}</p>
      )}
      {exchange.lost > 0 && <p class="trouble">{words.lost(exchange.lost)}</p>}
    </section>
  );
}

function Attention(): JSX.Element | null {
  const { attention } = useField().state;
  if (attention.length === 0) return null;
  return (
    <section class="banner grave" aria-labelledby="attention">
      <h2 id="attention">{words.attention.title}</h2>
      <p>{words.attention.lead}</p>
      {attention.map(({ id, type, outcome, field, value, remedy }) => (
        <div key={id} class="section">
          <p>
            {type}: {words.attention[outcome]}. {text.common.wrong(text.fields.called(field), value, remedy)}
          </p>
          <Act looks="quiet" onTouch={() => go('entry', { entry: id })}>
            {words.attention.look}
          </Act>
        </div>
      ))}
    </section>
  );
}

/** Phones that the logbook knows by the name of this one: most likely this one, before its storage was cleared. */
function earlierSelves({ phone, folded }: FieldState): readonly { id: string; entries: number }[] {
  const called = phone.label.trim().toLowerCase();
  const others = [...folded.stand.devices.values()].filter(
    ({ id, label, person, revokedBy }) =>
      id !== phone.device &&
      revokedBy === undefined &&
      person === phone.person &&
      label.trim().toLowerCase() === called,
  );
  return others.map(({ id }) => ({
    id,
    entries: [...folded.entries.values()].filter(({ device }) => device === id).length,
  }));
}

function ThisPhone(): JSX.Element {
  const { state } = useField();
  const { phone } = state;
  return (
    <section class="section" aria-labelledby="this-phone">
      <h2 id="this-phone">{words.phone.title}</h2>
      <dl class="pairs">
        <dt>{words.phone.person}</dt>
        <dd>{phone.personName ?? words.phone.nobody}</dd>
        <dt>{words.phone.label}</dt>
        <dd>{phone.label}</dd>
      </dl>
      <p class="soft">
        {phone.paired ? words.phone.paired : words.phone.unpaired},{' '}
        {phone.signs ? words.phone.signs : words.phone.noSign}
      </p>
      {phone.paired &&
        earlierSelves(state).map(({ id, entries }) => (
          <p key={id}>{words.phone.before(phone.label, entries)}</p>
        ))}
      {phone.paired ? (
        <Act looks="quiet" under={words.phone.forgetUnder} onTouch={() => go('forget')}>
          {words.phone.forget}
        </Act>
      ) : (
        <Act looks="quiet" onTouch={() => go('pair')}>
          {words.phone.pair}
        </Act>
      )}
    </section>
  );
}
