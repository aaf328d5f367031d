// The stop card: over everything, until it has been read. What it says comes from the felling room.
import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { type StopCard, type StopReason, stopCards } from '../../../../felling/index.ts';
import { text } from '../../text/index.ts';
import { Act } from './Act.tsx';
import { Unfold } from './Field.tsx';

type Asked = Readonly<{ reasons: readonly StopReason[]; onRead: (reason: StopReason) => void }>;

export function StopCards({ reasons, onRead }: Asked): JSX.Element | null {
  const [reason] = reasons;
  if (reason === undefined) return null;
  return (
    <OneStopCard key={reason} card={stopCards[reason]}>
      <Act looks="large full grave" onTouch={() => onRead(reason)}>
        {text.danger.stop.read}
      </Act>
    </OneStopCard>
  );
}

type One = Readonly<{
  card: StopCard;
  /** More of what has just happened. */
  more?: ComponentChildren;
  /** What can be touched. */
  children: ComponentChildren;
}>;

export function OneStopCard({ card: { title, because, points, end }, more, children }: One): JSX.Element {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
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
      {more}
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
      {children}
    </div>
  );
}
