// What every screen stands in: the outbox line on top, heading and fields, and at the foot what the thumb reaches:
// the work of the screen, the way back and the emergency card.
import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { text } from '../../text/index.ts';
import { type Form, troubleText } from '../form.ts';
import { go } from '../way.ts';
import { Act } from './Act.tsx';
import { OutboxLine } from './OutboxLine.tsx';

type Asked = Readonly<{
  title: string;
  /** Words under the title. */
  lead?: ComponentChildren;
  children?: ComponentChildren;
  /** The buttons that the screen is for. */
  foot?: ComponentChildren;
  form?: Form;
  /** Instead of the way back, on the screen where every way ends. */
  beside?: ComponentChildren;
  /** The emergency card has no way to itself. */
  without?: 'emergency';
}>;

export function Frame({ title, lead, children, foot, form, beside, without }: Asked): JSX.Element {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    scrollTo(0, 0);
    document.title = title;
    heading.current?.focus({ preventScroll: true });
  }, [title]);
  return (
    <div class="screen">
      <header>
        <OutboxLine />
      </header>
      <main class="page">
        <div class="page-head">
          <h1 ref={heading} tabIndex={-1}>
            {title}
          </h1>
          {lead !== undefined && <div class="soft">{lead}</div>}
        </div>
        {form !== undefined && !form.ready ? <p class="soft">{text.common.loading}</p> : children}
      </main>
      <footer class="foot">
        {form !== undefined && <Refusal form={form} />}
        {form?.ready !== false && foot}
        <div class="foot-row">
          {beside !== undefined ? (
            beside
          ) : (
            <Act looks="quiet" symbol="back" heard={text.common.backHeard} onTouch={() => go('today')}>
              {text.common.back}
            </Act>
          )}
          {without !== 'emergency' && (
            <Act looks="quiet" symbol="help" onTouch={() => go('emergency')}>
              {text.common.emergency}
            </Act>
          )}
        </div>
      </footer>
    </div>
  );
}

/** Why the last touch kept nothing: the storage, or what has no field on this screen in full, the rest as a count. */
function Refusal({ form }: Readonly<{ form: Form }>): JSX.Element {
  const { count, elsewhere } = form.troubles();
  return (
    <div role="alert">
      {form.refused && (
        <p class="trouble">
          {text.common.notStored} {text.common.notStoredRemedy}
        </p>
      )}
      {count > 0 && <p class="trouble">{text.common.notSaved(count)}</p>}
      {elsewhere.map((problem) => (
        <p class="trouble" key={problem.field}>
          {troubleText(problem)}
        </p>
      ))}
    </div>
  );
}
