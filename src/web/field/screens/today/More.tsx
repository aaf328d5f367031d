// Everything else that can be recorded, and what was recorded.
import type { JSX } from 'preact';
import type { SignName } from '../../look/index.ts';
import { text } from '../../text/index.ts';
import { Act } from '../parts/Act.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go, type ScreenName } from '../way.ts';

const ways: readonly [ScreenName, SignName, string][] = [
  ['hazard', 'hazard', text.ground.hazard.title],
  ['gone', 'hazard', text.ground.hazard.clearTitle],
  ['cleared', 'hungUp', text.stems.cleared.title],
  ['rot', 'rot', text.stems.rot.title],
  ['check', 'sapling', text.ground.check.title],
  ['damage', 'damage', text.ground.damage.title],
  ['protect', 'sapling', text.ground.protect.title],
  ['photo', 'photo', text.keep.photo.title],
  ['note', 'note', text.keep.note.title],
  ['tag', 'tag', text.stems.tag.title],
  ['stake', 'stake', text.ground.stake.title],
  ['close', 'opening', text.ground.close.title],
];

const others: readonly [ScreenName, SignName, string][] = [
  ['saved', 'list', text.keep.saved.title],
  ['sending', 'send', text.sending.title],
  ['settings', 'gear', text.phone.settings.title],
];

export function More(): JSX.Element {
  return (
    <Frame title={text.today.moreTitle}>
      <div class="act-list two">
        {ways.map(([screen, symbol, words]) => (
          <Act key={screen} looks="left" symbol={symbol} onTouch={() => go(screen)}>
            {words}
          </Act>
        ))}
      </div>
      <div class="act-list">
        {others.map(([screen, symbol, words]) => (
          <Act key={screen} looks="quiet left" symbol={symbol} onTouch={() => go(screen)}>
            {words}
          </Act>
        ))}
      </div>
    </Frame>
  );
}
