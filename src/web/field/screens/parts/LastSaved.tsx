// What was saved last in this sitting, and the way to take it back.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { namesFor, sentenceOf } from '../keep/sentence.ts';
import { go } from '../way.ts';
import { Act } from './Act.tsx';

/** What the phone records by itself is no work of anybody's. */
const byThePhone: ReadonlySet<string> = new Set(['person-named', 'device-paired']);

export function LastSaved(): JSX.Element {
  const { engine, state } = useField();
  const { folded, saved } = state;
  const last = folded.entries.get(saved.at(-1) ?? '');
  const entry = last !== undefined && byThePhone.has(last.type) ? undefined : last;
  return (
    <div role="status">
      {entry !== undefined && (
        <div class="notice settles" key={entry.id}>
          <span class="grow">
            {text.common.saved}: {sentenceOf(folded, entry, namesFor(engine, folded))}
          </span>
          {entry.type !== 'entry-struck' && (
            <Act looks="quiet" onTouch={() => go('strike', { entry: entry.id })}>
              {text.common.takeBack}
            </Act>
          )}
        </div>
      )}
    </div>
  );
}
