// What was saved last in this sitting, and the way to take it back.
import type { JSX } from 'preact';
import { Sign } from '../../look/index.ts';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { namesFor, sentenceOf } from '../keep/sentence.ts';
import { go } from '../way.ts';
import { Act } from './Act.tsx';

export function LastSaved(): JSX.Element {
  const { engine, state } = useField();
  const { folded, saved } = state;
  const entry = folded.entries.get(saved.at(-1) ?? '');
  return (
    <div role="status">
      {entry !== undefined && (
        <div class="notice settles" key={entry.id}>
          <Sign of="yes" />
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
