// The call that somebody expects from whoever is out: when it is due, and large when it is overdue.
import type { JSX } from 'preact';
import { callOverdue, instantOf, openCalls } from '../../../../stand/index.ts';
import { dayAndTime, text } from '../../text/index.ts';
import { useField, useNow } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { go } from '../way.ts';

const words = text.danger.emergency;

/** Nothing while no call is expected: the emergency card says what that means. */
export function CallLine(): JSX.Element | null {
  const { stand } = useField().state.folded;
  const now = useNow();
  const late = callOverdue(stand, now);
  const next = late ?? openCalls(stand)[0];
  if (next === undefined) return null;
  const due = instantOf(next.due);
  if (late !== undefined)
    return (
      <button type="button" class="overdue" onClick={() => go('emergency')}>
        {words.overdue(dayAndTime(due), text.common.span(now - due))}
      </button>
    );
  return (
    <Act looks="quiet left" symbol="help" onTouch={() => go('emergency')}>
      {words.expected(dayAndTime(due))}
    </Act>
  );
}
