// Today: what can hurt comes first, then what stands, and at the foot what is done a hundred times.
import type { JSX } from 'preact';
import { type Group, type Stem, stemLabel, viewGroup } from '../../../../stand/index.ts';
import { Sign, type SignName } from '../../look/index.ts';
import { figure, text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { NextByPlan } from '../later.tsx';
import { Act } from '../parts/Act.tsx';
import { Frame } from '../parts/Frame.tsx';
import { LastSaved } from '../parts/LastSaved.tsx';
import { stemDetails } from '../parts/StemPicker.tsx';
import { ClockLine } from '../phone/Health.tsx';
import { useToCut } from '../stems/Felled.tsx';
import { go } from '../way.ts';
import { CallLine } from './CallLine.tsx';
import { OpenThings } from './OpenThings.tsx';
import { UpdateLine } from './UpdateLine.tsx';

const words = text.today;
/** How many of the stems still to be cut are shown at once. */
const shown = 6;

export function Today(): JSX.Element {
  const group = useGroup();
  return (
    <Frame
      title={words.title}
      beside={
        <Act looks="quiet" symbol="more" onTouch={() => go('more')}>
          {words.more}
        </Act>
      }
      foot={
        <div class="foot-row">
          <Act looks="large full" symbol="cut" onTouch={() => go('mark')}>
            {words.mark}
          </Act>
          <Act looks="large full" symbol="down" onTouch={() => go('felled')}>
            {words.down}
          </Act>
        </div>
      }
    >
      <UpdateLine />
      <ClockLine />
      <CallLine />
      <LastSaved />
      <InHand group={group} />
      <OpenThings group={group} />
      <NextByPlan group={group} />
      {group !== undefined && <Standing group={group} />}
      <ToCut />
    </Frame>
  );
}

function InHand({ group }: Readonly<{ group: Group | undefined }>): JSX.Element {
  const { state } = useField();
  const block = group?.block === undefined ? undefined : state.folded.stand.blocks.get(group.block)?.name;
  return (
    <>
      <Act
        looks="quiet left"
        under={group === undefined ? words.noGroupHelp : (block ?? words.noBlock)}
        heard={words.changeHeard(group?.label ?? words.noGroup)}
        onTouch={() => go('group')}
      >
        {group === undefined ? words.noGroup : words.group(group.label)}
      </Act>
      {group?.opening === 'closed' && <p class="soft">{words.closed}</p>}
    </>
  );
}

function Standing({ group }: Readonly<{ group: Group }>): JSX.Element {
  const { state } = useField();
  const view = viewGroup(state.folded.stand, [], group);
  const stays = view.markedLeave.filter(({ status }) => status === 'standing' || status === 'dead');
  return (
    <section class="section" aria-label={words.standing}>
      <dl class="figures">
        <Figure symbol="cut" words={words.cut} count={view.standingCut.length} />
        <Figure symbol="leave" words={words.leave} count={stays.length} />
        <Figure symbol="sapling" words={words.saplings} count={view.saplings.length} />
      </dl>
    </section>
  );
}

function Figure(asked: Readonly<{ symbol: SignName; words: string; count: number }>): JSX.Element {
  return (
    <div class="figure">
      <dt>
        <Sign of={asked.symbol} />
        {asked.words}
      </dt>
      <dd class="numbers">{figure(asked.count)}</dd>
    </div>
  );
}

function ToCut(): JSX.Element | null {
  const toCut = useToCut();
  if (toCut.length === 0) return null;
  return (
    <section class="section" aria-labelledby="to-cut">
      <h2 id="to-cut">{words.toCut}</h2>
      <p class="soft small">{words.toCutUnder}</p>
      <div class="act-list two">
        {toCut.slice(0, shown).map((stem: Stem) => (
          <Act
            key={stem.id}
            looks="quiet"
            under={stemDetails(stem)}
            onTouch={() => go('felled', { stem: stem.id })}
          >
            {stemLabel(stem)}
          </Act>
        ))}
      </div>
      {toCut.length > shown && (
        <Act looks="quiet" onTouch={() => go('felled')}>
          {words.allToCut(toCut.length)}
        </Act>
      )}
    </section>
  );
}
