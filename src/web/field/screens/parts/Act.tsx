// Buttons: one for everything that can be touched, with a symbol, words, and a second line under them.
import type { ComponentChildren, JSX } from 'preact';
import { Sign, type SignName } from '../../look/index.ts';

type Asked = Readonly<{
  children: ComponentChildren;
  onTouch: () => void;
  symbol?: SignName;
  under?: string | undefined;
  /** Space-separated: large, full, grave, quiet, left. */
  looks?: string;
  disabled?: boolean;
  heard?: string;
  pressed?: boolean;
}>;

export function Act({
  children,
  onTouch,
  symbol,
  under,
  looks = '',
  disabled,
  heard,
  pressed,
}: Asked): JSX.Element {
  return (
    <button
      type="button"
      class={`act ${looks}`}
      disabled={disabled}
      aria-label={heard}
      aria-pressed={pressed}
      onClick={onTouch}
    >
      {symbol && <Sign of={symbol} />}
      <span>
        {children}
        {under !== undefined && <span class="under">{under}</span>}
      </span>
    </button>
  );
}
