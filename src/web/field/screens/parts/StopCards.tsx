// The stop card: over everything, until it has been read. What it says comes from the felling room.
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { type StopReason, stopCards } from '../../../../felling/index.ts';
import { text } from '../../text/index.ts';
import { Act } from './Act.tsx';
import { Unfold } from './Field.tsx';

type Asked = Readonly<{ reasons: readonly StopReason[]; onRead: (reason: StopReason) => void }>;

export function StopCards({ reasons, onRead }: Asked): JSX.Element | null {
  const heading = useRef<HTMLHeadingElement>(null);
  const [reason] = reasons;
  useEffect(() => heading.current?.focus(), [reason]);
  if (reason === undefined) return null;
  const { title, because, points, end } = stopCards[reason];
  return (
    <div
      class="stop"
      role="alertdialog"
      aria-modal="true"
      aria-labelledby="stop-title"
      aria-describedby="stop-why"
    >
      <h1 id="stop-title" tabIndex={-1} ref={heading}>
        {title}
      </h1>
      <h2 id="stop-why">{because}</h2>
      <ol>
        {points.map((point) => (
          <li key={point.text}>{point.text}</li>
        ))}
      </ol>
      <p>{end}</p>
      <Unfold label={text.danger.stop.source}>
        {points.map(({ text: said, basis, source }) => (
          <p class="small" key={said}>
            {said} <i>{basis}</i>: {source}
          </p>
        ))}
      </Unfold>
      <Act looks="large full grave" onTouch={() => onRead(reason)}>
        {text.danger.stop.read}
      </Act>
    </div>
  );
}
