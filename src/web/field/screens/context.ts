// The engine and its state, for every screen; and settings of this phone.
import { createContext } from 'preact';
import { useContext, useEffect, useState } from 'preact/hooks';
import type { JsonValue, UnitSystem } from '../../../events/index.ts';
import type { Group, Stand } from '../../../stand/index.ts';
import type { Engine, FieldState } from '../engine/port.ts';

type Given = Readonly<{ engine: Engine; state: FieldState }>;

export const EngineContext = createContext<Given | undefined>(undefined);

/** The engine with its state now; draws again after every change. For the outermost component only. */
export function useEngineState(engine: Engine): Given {
  const [given, setGiven] = useState<Given>({ engine, state: engine.state() });
  useEffect(() => {
    const look = () => setGiven({ engine, state: engine.state() });
    look();
    return engine.subscribe(look);
  }, [engine]);
  return given;
}

export function useField(): Given {
  const given = useContext(EngineContext);
  if (given === undefined) throw new Error('A screen stands outside of the page.');
  return given;
}

/** A setting of this phone, or what holds without one. */
export function useSetting<T extends JsonValue>(name: string, otherwise: T): [T, (value: T) => void] {
  const { engine } = useField();
  const [, again] = useState(0);
  const value = (engine.setting(name) ?? otherwise) as T;
  const set = (next: T) => {
    void engine.setSetting(name, next).finally(() => again((count) => count + 1));
  };
  return [value, set];
}

/** The units in which things are typed here: as chosen on this phone, or as the logbook has them. */
export function useUnits(): UnitSystem {
  const { state } = useField();
  const [units] = useSetting<string>('units', state.folded.stand.logbook?.body.units ?? 'us');
  return units === 'metric' ? 'metric' : 'us';
}

/** The group that is worked in, while it is known here. */
function groupInHand(engine: Engine, stand: Stand): Group | undefined {
  const id = engine.setting('group');
  return typeof id === 'string' ? stand.groups.get(id) : undefined;
}

export function useGroup(): Group | undefined {
  const { engine, state } = useField();
  return groupInHand(engine, state.folded.stand);
}

/** The time now, looked at again every so often, for ages that are shown. Milliseconds since 1970. */
export function useNow(every = 15_000): number {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), every);
    return () => clearInterval(timer);
  }, [every]);
  return now;
}
