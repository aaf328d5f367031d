// What a screen has filled in: kept as a draft at every change, brought back after a reload, saved through the
// engine. What is wrong comes back field by field; nothing typed is lost by a refusal.
import { useContext, useEffect, useRef, useState } from 'preact/hooks';
import type { JsonValue, TypingProblem } from '../../../events/index.ts';
import type { Draft, Saved } from '../engine/port.ts';
import { text } from '../text/index.ts';
import { useField } from './context.ts';
import { isAboutPlace, nowhere } from './place/value.ts';
import { mayStop, StopContext, stopsAfter } from './stop.ts';
import { asText } from './values.ts';
import { type Keeping, wantedOf } from './wanted.ts';

export type Form = Readonly<{
  /** False until the draft has been read. */
  ready: boolean;
  values: Draft;
  /** A value as text; empty when there is none. */
  text: (name: string) => string;
  set: (name: string, value: JsonValue | undefined) => void;
  setAll: (values: Draft) => void;
  /** What is wrong with a field; also notes that the field stands on the screen. */
  troubleOf: (name: string) => readonly TypingProblem[];
  /** Everything that is wrong, and what of it has no field on the screen. */
  troubles: () => Readonly<{ count: number; elsewhere: readonly TypingProblem[] }>;
  refuse: (problems: readonly TypingProblem[]) => void;
  /** Only the place kept the last entry from being saved: saves it without one, and goes on as after any save. */
  withoutPlace: (() => void) | undefined;
  busy: boolean;
  /** The phone's storage refused. */
  refused: boolean;
  /** Saves an entry; gives its id and what it introduced, or undefined when something has to be put right. */
  save: (keeping: Keeping) => Promise<Extract<Saved, { ok: true }> | undefined>;
}>;

/** Rain and gloves touch twice: a button that has just saved takes nothing for this long. Milliseconds. */
const restAfterSaving = 700;

/**
 * @param screen name of the draft
 * @param begin what stands there when there is no draft
 */
export function useForm(screen: string, begin: Draft): Form {
  const { engine } = useField();
  const stops = useContext(StopContext);
  const [values, setValues] = useState<Draft | undefined>(undefined);
  const [problems, setProblems] = useState<readonly TypingProblem[]>([]);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState(false);
  const now = useRef<Draft>(begin);
  const lock = useRef(false);
  /** Somebody has to choose what becomes of a place that is half measured. */
  const choosing = useRef<((without: boolean) => void) | undefined>(undefined);
  const onScreen = useRef(new Set<string>());

  useEffect(() => {
    let here = true;
    void engine.draft(screen).then((draft) => {
      if (!here) return;
      now.current = { ...begin, ...draft };
      setValues(now.current);
    });
    return () => {
      here = false;
    };
  }, [engine, screen]);

  useEffect(() => {
    if (problems.length > 0) showFirstTrouble();
  }, [problems]);

  const setAll = (fresh: Draft) => {
    now.current = { ...now.current, ...fresh };
    setValues(now.current);
    engine.keepDraft(screen, now.current).catch(() => setRefused(true));
  };
  const set = (name: string, value: JsonValue | undefined) => {
    setProblems((old) => old.filter(({ field }) => field !== name));
    setAll({ [name]: value ?? '' });
  };
  const refuse = (found: readonly TypingProblem[]) => {
    setProblems(found);
    return found.length > 0 && found.every(isAboutPlace) ? 'place' : undefined;
  };
  /** Gives what was saved, "place" when nothing but the place stood in the way, or undefined. */
  const attempt = async (keeping: Keeping, draft: Draft) => {
    const wanted = wantedOf(keeping, draft);
    if (!wanted.ok) return refuse(wanted.problems);
    const before = { stand: engine.state().folded.stand, fields: wanted.wanted.fields };
    const cards = stopsAfter(before);
    const isWatched = mayStop.has(keeping.kind);
    if (isWatched) await stops.expect();
    const saved = await engine.save(wanted.wanted);
    if (!saved.ok) return refuse(saved.problems);
    now.current = keeping.next ?? begin;
    setValues(now.current);
    setProblems([]);
    // It is kept: a phone that cannot put the draft away must not make it look as if it were not. The cards come first.
    await Promise.allSettled([
      ...(isWatched ? [stops.show(cards(engine.state().folded, saved.id))] : []),
      engine.keepDraft(screen, keeping.next),
    ]);
    return saved;
  };
  const locked = async (act: () => ReturnType<typeof attempt>) => {
    if (lock.current) return undefined;
    lock.current = true;
    setBusy(true);
    setRefused(false);
    try {
      return await act();
    } catch {
      setRefused(true);
      return undefined;
    } finally {
      setTimeout(() => {
        lock.current = false;
        setBusy(false);
      }, restAfterSaving);
    }
  };
  const save = async (keeping: Keeping) => {
    // Who touches the button again has put it right, or wants to.
    choosing.current?.(false);
    const saved = await locked(() => attempt(keeping, now.current));
    if (saved !== 'place') return saved;
    const without = await new Promise<boolean>((chosen) => {
      choosing.current = chosen;
    });
    choosing.current = undefined;
    const again = without ? await locked(() => attempt(keeping, { ...now.current, ...nowhere })) : undefined;
    return again === 'place' ? undefined : again;
  };

  return {
    ready: values !== undefined,
    values: values ?? begin,
    text: (name) => asText((values ?? begin)[name]),
    set,
    setAll,
    troubleOf: (name) => {
      onScreen.current.add(name);
      return problems.filter(({ field }) => field === name || field.startsWith(`${name}.`));
    },
    troubles: () => ({
      count: problems.length,
      elsewhere: problems.filter(({ field }) => !onScreen.current.has(field.split('.')[0] ?? field)),
    }),
    refuse: setProblems,
    withoutPlace: problems.some(isAboutPlace) ? () => choosing.current?.(true) : undefined,
    busy,
    refused,
    save,
  };
}

/** One thing that is wrong, in a sentence with its field, its value and the remedy. */
export function troubleText({ field, value, remedy }: TypingProblem): string {
  return text.common.wrong(text.fields.called(field), value, remedy);
}

/** Opens what folds the first field away that has to be put right, and brings it into view. */
function showFirstTrouble(): void {
  requestAnimationFrame(() => {
    const trouble = document.querySelector('.page .trouble');
    trouble?.closest('details')?.setAttribute('open', '');
    trouble?.scrollIntoView({ block: 'center' });
  });
}
