// What tests of typing need to know of a logbook: one that knows a stake A, a stem A12 and a block North.
import type { UnitSystem } from '../../src/events/index.ts';
import type { Typing } from '../../src/events/typing.ts';

export const stake = '01970000-0000-7000-8000-0000000000a1';
export const stem = '01970000-0000-7000-8000-0000000000a2';
export const block = '01970000-0000-7000-8000-0000000000a3';
export const made = '01970000-0000-7000-8000-0000000000ff';

const known: Readonly<Record<string, string>> = {
  'stake a': stake,
  'stem a12': stem,
  'block north': block,
};

export const find: Typing['find'] = (noun, text) => {
  const id = known[`${noun} ${text.toLowerCase()}`];
  return id === undefined
    ? { ok: false, remedy: `there is no ${noun} called ${text}` }
    : { ok: true, value: id };
};

/** A logbook in North Carolina in March, before the clocks are put forward. */
export function typingIn(units: UnitSystem = 'us', more: Partial<Typing> = {}): Typing {
  return {
    units,
    zone: 'America/New_York',
    now: '2026-03-06T09:30:00-05:00',
    find,
    findEntry: () => ({ ok: true, value: made }),
    newIdentity: () => made,
    seal: (_field, text) => ({ ok: true, value: text.length.toString(16).padStart(64, '0') }),
    ...more,
  };
}
