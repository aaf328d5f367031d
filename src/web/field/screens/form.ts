// What a screen has filled in: kept as a draft at every change, brought back after a reload, saved through the
// engine. What is wrong comes back field by field; nothing typed is lost by a refusal.
import { useContext, useEffect, useRef, useState } from 'preact/hooks';
import { type EventType, type JsonValue, kindOf, type TypingProblem } from '../../../events/index.ts';
import type { Draft, Saved, Wanted } from '../engine/port.ts';
import { text } from '../text/index.ts';
import { useField } from './context.ts';
import { placeOf } from './place/value.ts';
import { StopContext, stopsAfter } from './stop.ts';
import { asText, leanOf, timeOf } from './values.ts';

export type Keeping = Readonly<{
  kind: EventType;
  /** Fields besides those of the draft, and instead of them. */
  fields?: Readonly<Record<string, JsonValue | undefined>>;
  photo?: Wanted['photo'];
  /** What the draft begins with after this entry; without it the draft is put away. */
  next?: Draft;
}>;

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
  const { engine, state } = useField();
  const stop = useContext(StopContext);
  const [values, setValues] = useState<Draft | undefined>(undefined);
  const [problems, setProblems] = useState<readonly TypingProblem[]>([]);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState(false);
  const now = useRef<Draft>(begin);
  const lock = useRef(false);
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
  const attempt = async (keeping: Keeping) => {
    const wanted = wantedOf(keeping, now.current);
    if (!wanted.ok) {
      setProblems(wanted.problems);
      return undefined;
    }
    const before = { stand: state.folded.stand, fields: wanted.wanted.fields };
    const cards = stopsAfter(before);
    const saved = await engine.save(wanted.wanted);
    if (!saved.ok) {
      setProblems(saved.problems);
      return undefined;
    }
    await stop(cards(engine.state().folded, saved.id));
    now.current = keeping.next ?? begin;
    setValues(now.current);
    setProblems([]);
    await engine.keepDraft(screen, keeping.next);
    return saved;
  };
  const save = async (keeping: Keeping) => {
    if (lock.current) return undefined;
    lock.current = true;
    setBusy(true);
    setRefused(false);
    try {
      return await attempt(keeping);
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
    busy,
    refused,
    save,
  };
}

/** One thing that is wrong, in a sentence with its field, its value and the remedy. */
export function troubleText({ field, value, remedy }: TypingProblem): string {
  return text.common.wrong(text.fields.called(field), value, remedy);
}

type Asked = { ok: true; wanted: Wanted } | { ok: false; problems: TypingProblem[] };

/** The entry that a draft asks for: the fields that its kind has, with place, lean and time put together. */
function wantedOf({ kind, fields = {}, photo }: Keeping, draft: Draft): Asked {
  const known = kindOf(kind)?.fields ?? {};
  const parts = [
    'position' in known ? placeOf(draft) : ({ ok: true, value: undefined } as const),
    'lean' in known ? leanOf(draft) : ({ ok: true, value: undefined } as const),
  ] as const;
  const time = timeOf(draft);
  const problems = [...parts, time].flatMap((part) => (part.ok ? [] : [part.problem]));
  const [place, lean] = parts;
  if (!place.ok || !lean.ok || !time.ok) return { ok: false, problems };
  const all: Readonly<Record<string, JsonValue | undefined>> = {
    ...draft,
    position: place.value,
    lean: lean.value,
    ...fields,
  };
  const given = Object.entries(all).filter(
    (pair): pair is [string, JsonValue] => pair[0] in known && !isEmpty(pair[1]),
  );
  return {
    ok: true,
    wanted: {
      kind,
      fields: Object.fromEntries(given),
      ...(time.value === undefined ? {} : { happenedAt: time.value }),
      ...(photo === undefined ? {} : { photo }),
    },
  };
}

function isEmpty(value: JsonValue | undefined): boolean {
  return (
    value === undefined || value === null || value === '' || (Array.isArray(value) && value.length === 0)
  );
}

/** Opens what folds the first field away that has to be put right, and brings it into view. */
function showFirstTrouble(): void {
  requestAnimationFrame(() => {
    const trouble = document.querySelector('.page .trouble');
    trouble?.closest('details')?.setAttribute('open', '');
    trouble?.scrollIntoView({ block: 'center' });
  });
}
