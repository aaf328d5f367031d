// The page: one screen at a time, and over everything the stop card until it has been read.
import type { JSX } from 'preact';
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { StopReason } from '../../../felling/index.ts';
import type { Engine } from '../engine/port.ts';
import { type Light, shine } from '../look/index.ts';
import { text } from '../text/index.ts';
import { EngineContext, useEngineState, useSetting } from './context.ts';
import { Check } from './ground/Check.tsx';
import { Close } from './ground/Close.tsx';
import { Damage } from './ground/Damage.tsx';
import { Gone, Hazard } from './ground/Hazard.tsx';
import { Protect } from './ground/Protect.tsx';
import { Stake } from './ground/Stake.tsx';
import { Entry } from './keep/Entry.tsx';
import { Note } from './keep/Note.tsx';
import { Photo } from './keep/Photo.tsx';
import { SavedList } from './keep/Saved.tsx';
import { Strike } from './keep/Strike.tsx';
import { Plan, useLater } from './later.tsx';
import { StopCards } from './parts/StopCards.tsx';
import { useAwake } from './phone/awake.ts';
import { Emergency } from './phone/Emergency.tsx';
import { Forget } from './phone/Forget.tsx';
import { Sending } from './phone/Sending.tsx';
import { Settings } from './phone/Settings.tsx';
import { ByFiles, Pair, Welcome } from './phone/Welcome.tsx';
import { Cleared } from './stems/Cleared.tsx';
import { Felled } from './stems/Felled.tsx';
import { Mark } from './stems/Mark.tsx';
import { Rot } from './stems/Rot.tsx';
import { Tag } from './stems/Tag.tsx';
import { isStopReason, lastSeqOf, StopContext, type Stops, stopsSince } from './stop.ts';
import { ChooseGroup } from './today/ChooseGroup.tsx';
import { More } from './today/More.tsx';
import { Today } from './today/Today.tsx';
import { type ScreenName, useWay } from './way.ts';

type About = Readonly<{ about: Readonly<Record<string, string>> }>;
const screens: Readonly<Record<ScreenName, (asked: About) => JSX.Element>> = {
  today: Today,
  group: ChooseGroup,
  more: More,
  mark: Mark,
  felled: Felled,
  rot: Rot,
  cleared: Cleared,
  tag: Tag,
  check: Check,
  hazard: Hazard,
  gone: Gone,
  damage: Damage,
  protect: Protect,
  stake: Stake,
  plan: Plan,
  close: Close,
  note: Note,
  photo: Photo,
  saved: SavedList,
  entry: Entry,
  strike: Strike,
  emergency: Emergency,
  sending: Sending,
  pair: Pair,
  files: ByFiles,
  forget: Forget,
  settings: Settings,
};

/** Screens that make sense before anybody has said who records on this phone. */
const beforeAll: ReadonlySet<ScreenName> = new Set(['pair', 'files', 'emergency', 'sending', 'settings']);

export function App({ engine }: Readonly<{ engine: Engine }>): JSX.Element {
  const given = useEngineState(engine);
  if (!given.state.ready)
    return (
      <div class="page" role="status">
        {text.common.loading}
      </div>
    );
  return (
    <EngineContext.Provider value={given}>
      <Page engine={engine} nobody={given.state.phone.person === undefined} />
    </EngineContext.Provider>
  );
}

function Page({ engine, nobody }: Readonly<{ engine: Engine; nobody: boolean }>): JSX.Element {
  const way = useWay();
  const [light] = useSetting<string>('light', 'auto');
  const { reasons, stops, read } = useStopCards(engine);
  const later = useLater();
  const ended = later ? later.planEnded(engine, way) : undefined;
  useAwake();
  useEffect(() => shine(light as Light), [light]);
  const Screen = nobody && !beforeAll.has(way.screen) ? Welcome : screens[way.screen];
  return (
    <StopContext.Provider value={stops}>
      <div inert={reasons.length > 0 || ended !== undefined}>
        <Screen key={way.screen} about={way.about} />
      </div>
      <StopCards reasons={reasons} onRead={read} />
      {later && ended && reasons.length === 0 && <later.PlanEnded ended={ended} />}
    </StopContext.Provider>
  );
}

/**
 * Cards that are due, kept like a draft: a page that was killed shows them again. One that was killed between saving
 * and showing looks at what was saved since.
 */
function useStopCards(engine: Engine) {
  const [reasons, setReasons] = useState<readonly StopReason[]>([]);
  const now = useRef<readonly StopReason[]>([]);
  const keep = useCallback(
    async (due: readonly StopReason[]) => {
      now.current = due;
      setReasons(due);
      await engine.keepDraft('stop', due.length === 0 ? undefined : { reasons: due });
    },
    [engine],
  );
  useEffect(() => {
    void engine.draft('stop').then((draft) => {
      if (draft === undefined) return;
      const { folded, phone } = engine.state();
      const shown = Array.isArray(draft.reasons) ? draft.reasons.filter(isStopReason) : [];
      const missed = typeof draft.since === 'number' ? stopsSince(folded, phone.device, draft.since) : [];
      // What cannot be written now is shown all the same.
      keep([...new Set([...shown, ...missed])]).catch(() => undefined);
    });
  }, [engine, keep]);
  const stops = useMemo<Stops>(
    () => ({
      expect: async () => {
        const { folded, phone } = engine.state();
        await engine.keepDraft('stop', { reasons: now.current, since: lastSeqOf(folded, phone.device) });
      },
      show: (due) => keep([...new Set([...now.current, ...due])]),
    }),
    [engine, keep],
  );
  const read = (reason: StopReason) =>
    void keep(now.current.filter((one) => one !== reason)).catch(() => undefined);
  return { reasons, stops, read };
}
