// The page's own keys for numbers: large enough for gloves, with nothing on them that is not needed. A keyboard
// works as well.
import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { text } from '../../text/index.ts';
import { Act } from './Act.tsx';

const keys = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'] as const;
const longest = 8;

type Asked = Readonly<{
  /** What is being typed, for those who listen. */
  label: string;
  number: string;
  onNumber: (number: string) => void;
  onDone: () => void;
  /** What stands beside "Done". */
  children?: ComponentChildren;
}>;

export function Keypad({ label, number, onNumber, onDone, children }: Asked): JSX.Element {
  const pad = useRef<HTMLFieldSetElement>(null);
  useEffect(() => pad.current?.scrollIntoView({ block: 'center' }), []);
  const press = (key: string) => {
    if (key === '.' && number.includes('.')) return;
    if (number.length < longest) onNumber(number + key);
  };
  const typed = (event: KeyboardEvent) => {
    if (/^[0-9.]$/.test(event.key)) press(event.key);
    else if (event.key === 'Backspace') onNumber(number.slice(0, -1));
    else if (event.key === 'Escape') onDone();
    else return;
    event.preventDefault();
  };
  return (
    <fieldset class="keypad settles" aria-label={text.fields.keypad.group(label)} onKeyDown={typed} ref={pad}>
      {keys.map((key) => (
        <Act
          key={key}
          {...(key === '.' ? { heard: text.fields.keypad.point } : {})}
          onTouch={() => press(key)}
        >
          {key}
        </Act>
      ))}
      <Act onTouch={() => onNumber(number.slice(0, -1))}>{text.fields.keypad.delete}</Act>
      <div class="foot-row keypad-done">
        {children}
        <Act looks="full" symbol="yes" onTouch={onDone}>
          {text.common.done}
        </Act>
      </div>
    </fieldset>
  );
}
