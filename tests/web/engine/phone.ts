// A phone for tests: its own storage and clock, a network that can be cut, timers that go when told to.
import 'fake-indexeddb/auto';
import { webcrypto } from 'node:crypto';
import { IDBFactory } from 'fake-indexeddb';
import { v7 } from 'uuid';
import { createEngine } from '../../../src/web/field/engine/index.ts';
import type { Outside } from '../../../src/web/field/engine/outside.ts';

export type Network = (address: string, request: RequestInit) => Promise<Response>;

export type Phone = {
  storage: IDBFactory;
  network: Network;
  now: number;
  /** Timers that were set, the earliest first. */
  timers: { due: number; act: () => void }[];
  wake: (() => void)[];
  /** Windows of the page that are open, by which they hear of each other. */
  windows: Set<(message: unknown) => void>;
};

export const nowhere: Network = () => Promise.reject(new TypeError('no network'));

export function newPhone(network: Network = nowhere): Phone {
  return {
    storage: new IDBFactory(),
    network,
    // As the server has it: a clock that is far off is recorded.
    now: Date.now(),
    timers: [],
    wake: [],
    windows: new Set(),
  };
}

/** The world of one window of the phone's page. */
function outsideOf(phone: Phone, changes: Partial<Outside> = {}): Outside {
  return {
    indexedDB: phone.storage,
    fetch: (address, request) => phone.network(address, request),
    now: () => phone.now,
    newId: () => v7(),
    chance: () => 0.5,
    randomBytes: (count) => webcrypto.getRandomValues(new Uint8Array(count)),
    subtle: webcrypto.subtle as SubtleCrypto,
    offsetMinutes: () => -300,
    zone: 'America/New_York',
    api: 'https://woods.test/api/',
    secure: true,
    thisMachine: false,
    later: (milliseconds, act) => {
      const timer = { due: phone.now + milliseconds, act };
      phone.timers.push(timer);
      phone.timers.sort((a, b) => a.due - b.due);
      return () => {
        const index = phone.timers.indexOf(timer);
        if (index >= 0) phone.timers.splice(index, 1);
      };
    },
    onWake: (act) => phone.wake.push(act),
    storage: undefined,
    locks: undefined,
    channel: (heard) => {
      phone.windows.add(heard);
      return {
        tell: (message) => {
          for (const other of phone.windows) if (other !== heard) other(structuredClone(message));
        },
        close: () => void phone.windows.delete(heard),
      };
    },
    serviceWorker: undefined,
    build: '',
    reload: () => undefined,
    ...changes,
  };
}

export type Window = Awaited<ReturnType<typeof createEngine>>;

/** Opens a window of the page and waits until everything stored is read. */
export async function open(phone: Phone, changes: Partial<Outside> = {}): Promise<Window> {
  const engine = await createEngine(outsideOf(phone, changes));
  await until(engine, () => engine.state().ready);
  return engine;
}

/** Waits for a state of the engine. */
export function until(engine: Window, holds: () => boolean): Promise<void> {
  return new Promise((resolve) => {
    if (holds()) return resolve();
    const stop = engine.subscribe(() => {
      if (!holds()) return;
      stop();
      resolve();
    });
  });
}
