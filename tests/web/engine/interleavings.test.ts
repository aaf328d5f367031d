// Any order of saving, exchanging, losing answers, killing the page and sending twice, in one window or two: in the end
// the logbook has what the phone has, everything once.
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { type Network, open, type Window } from './phone.ts';
import { losing, note, nowhere, openWoods, pairedPhone, type Woods } from './woods.ts';

const ends: (() => Promise<void>)[] = [];
afterAll(async () => {
  for (const end of ends) await end();
});

const steps = fc.array(
  fc.constantFrom(
    'save',
    'save in the other window',
    'exchange',
    'exchange in both windows',
    'lose the answer to what is sent next',
    'no network',
    'network',
    'kill the page',
    'send everything once more',
  ),
  { minLength: 4, maxLength: 14 },
);

type Step = typeof steps extends fc.Arbitrary<readonly (infer S)[]> ? S : never;

async function play(house: Woods, order: readonly Step[]): Promise<void> {
  const { phone, engine } = await pairedPhone(house);
  let windows: Window[] = [engine, await open(phone)];
  const saved: string[] = [];
  const sent: { address: string; request: RequestInit }[] = [];
  const listening: Network = (address, request) => {
    if (request.method === 'POST') sent.push({ address, request });
    return house.network(address, request);
  };
  phone.network = listening;
  const [first, other] = [() => windows[0] ?? engine, () => windows[1] ?? engine];
  const actions: Readonly<Record<Step, () => unknown>> = {
    save: async () => saved.push(await note(first())),
    'save in the other window': async () => saved.push(await note(other())),
    exchange: () => first().exchange(),
    'exchange in both windows': () => Promise.all(windows.map((window) => window.exchange())),
    'lose the answer to what is sent next': () => {
      let lost = false;
      phone.network = losing(listening, () => {
        if (lost) return false;
        lost = true;
        return true;
      });
    },
    'no network': () => {
      phone.network = nowhere;
    },
    network: () => {
      phone.network = listening;
    },
    'kill the page': async () => {
      // In the middle of an exchange, if there is one: nobody waits for it.
      void first().exchange();
      for (const window of windows) window.stop();
      // The lease of what was killed runs out, and a phone that is killed often has a clock that is off in the end.
      phone.now += 2 * 60_000;
      windows = [await open(phone), await open(phone)];
    },
    'send everything once more': async () => {
      for (const { address, request } of sent.slice(-5)) await house.network(address, request);
    },
  };
  for (const step of order) await actions[step]();
  phone.network = listening;
  expect(await first().exchange()).toEqual({ ok: true });
  const { phone: it, outbox, folded } = first().state();
  const own = [...folded.entries.values()].filter(({ device }) => device === it.device);
  expect(outbox).toMatchObject({ waiting: 0, sent: own.length });
  // The set, and each once.
  const inLogbook = await house.entriesOf(it.device);
  expect([...inLogbook].sort()).toEqual(own.map(({ id }) => id).sort());
  expect(own.map(({ seq }) => seq).sort((a, b) => a - b)).toEqual(own.map((_, index) => index + 1));
  // What somebody saved, and beside it what the phone recorded by itself: that its clock had run ahead.
  const byItself = own.filter(({ type }) => type === 'clock-offset-noted').map(({ id }) => id);
  expect([...inLogbook].sort()).toEqual([...saved, ...byItself].sort());
  for (const { id, position } of own) expect((await house.log.get(id))?.position).toBe(position);
  for (const window of windows) window.stop();
}

test('whatever happens in between, the logbook ends with the set of the phone, and nothing twice', async () => {
  const house = await openWoods();
  ends.push(house.end);
  await fc.assert(
    fc.asyncProperty(steps, (order) => play(house, order)),
    { numRuns: 25 },
  );
}, 180_000);
