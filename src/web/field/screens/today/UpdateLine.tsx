// A newer version of the page is here; it comes into use when somebody says so.
import type { JSX } from 'preact';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';

const words = text.sending.update;

export function UpdateLine(): JSX.Element | null {
  const { engine, state } = useField();
  if (!state.updateWaiting) return null;
  return (
    <div class="banner" role="status">
      <p>{words.waiting}</p>
      <Act under={words.under} onTouch={() => void engine.update()}>
        {words.go}
      </Act>
    </div>
  );
}
