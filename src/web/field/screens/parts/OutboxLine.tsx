// One line, always in sight: how much is not sent and since when, or what is wrong with sending or keeping.
import type { JSX } from 'preact';
import type { FieldState } from '../../engine/port.ts';
import { Sign } from '../../look/index.ts';
import { text } from '../../text/index.ts';
import { useField, useNow } from '../context.ts';
import { go } from '../way.ts';

const { line } = text.sending;
/** What was saved since then has had no time to be sent. Milliseconds. */
const aMoment = 60_000;

export function OutboxLine(): JSX.Element {
  const { state } = useField();
  const now = useNow();
  const { looks, words } = lineOf(state, now);
  return (
    <button type="button" class={`outbox-line ${looks}`} onClick={() => go('sending')}>
      <Sign of="send" />
      <span>{words}</span>
      <span class="only-heard">{line.heard}</span>
    </button>
  );
}

function lineOf({ outbox, storage, attention, phone, exchange }: FieldState, now: number) {
  const waiting =
    outbox.waiting === 0
      ? undefined
      : line.waiting(
          outbox.waiting,
          outbox.oldest === undefined || now - outbox.oldest < aMoment
            ? undefined
            : text.common.span(now - outbox.oldest),
        );
  const photos = outbox.photos === 0 ? undefined : line.photos(outbox.photos);
  const stuck = [
    storage.works ? undefined : line.broken,
    storage.full ? line.full : undefined,
    phone.paired && exchange.is === 'not-paired' ? line.unknown : undefined,
    attention.length === 0 ? undefined : line.attention(attention.length),
  ].filter((part) => part !== undefined);
  const waits = [waiting, photos].filter((part) => part !== undefined);
  if (stuck.length > 0) return { looks: 'stuck', words: [...stuck, ...waits].join('; ') };
  if (waits.length > 0) return { looks: 'waits', words: waits.join('; ') };
  return { looks: '', words: phone.paired ? line.allSent(exchange.last) : line.files };
}
