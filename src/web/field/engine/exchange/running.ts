// When exchanges happen: by hand, soon after something was saved, when the page is looked at again or the network is
// back, and by a timer that waits longer after each failure.
import { text } from '../../text/index.ts';
import type { Core } from '../core.ts';
import type { Done } from '../port.ts';
import { alone } from './lock.ts';
import { exchangeOnce, type Save } from './once.ts';
import type { Outcome } from './outcome.ts';

/** Milliseconds. */
const soon = 1_500;
const regularly = 5 * 60_000;
const firstWait = 5_000;
const longestWait = 15 * 60_000;

export type Exchanging = Readonly<{
  /** Exchanges now; who asks twice hears of the same one. */
  now: (byHand: boolean) => Promise<Done>;
  /** Something was saved. */
  saved: () => void;
  begin: () => void;
  stop: () => void;
}>;

/** @param save keeps an entry that the phone makes by itself */
export function exchangeIn(core: Core, save: Save): Exchanging {
  const { outside, passing } = core;
  let running: Readonly<{ outcome: Promise<Outcome>; byHand: boolean }> | undefined;
  let callOff: () => void = () => undefined;
  let failures = 0;
  let stopped = false;

  const plan = (milliseconds: number | undefined) => {
    callOff();
    const planned = stopped ? undefined : milliseconds;
    passing.exchange = {
      ...passing.exchange,
      next: planned === undefined ? undefined : outside.now() + planned,
    };
    if (planned !== undefined) callOff = outside.later(planned, () => void go(false));
  };
  const run = async (byHand: boolean): Promise<Outcome> => {
    const outcome = whyNot(core) ?? (await exchanged(core, byHand, save));
    passing.exchange = {
      is: outcome.is,
      why: outcome.is === 'idle' ? undefined : outcome.why,
      next: undefined,
    };
    failures = outcome.is === 'no-answer' || outcome.is === 'refused' ? failures + 1 : 0;
    plan(waitAfter(outcome, failures, outside.chance()));
    core.changed();
    return outcome;
  };
  const go = (byHand: boolean): Promise<Outcome> => {
    const before = running;
    if (before && (before.byHand || !byHand)) return before.outcome;
    // What a person asks for is done whole, after what goes on by itself.
    const outcome = (before ? before.outcome.then(() => run(byHand)) : run(byHand)).finally(() => {
      if (running?.outcome === outcome) running = undefined;
    });
    running = { outcome, byHand };
    return outcome;
  };
  return {
    now: async (byHand) => {
      const { is, why } = await go(byHand);
      return is === 'idle' && why === undefined
        ? { ok: true }
        : { ok: false, why: why ?? text.engine.noAnswer };
    },
    saved: () => {
      // After a failure the next try has its time; saving does not make a network.
      if (failures === 0 && running === undefined && whyNot(core) === undefined) plan(soon);
    },
    begin: () => {
      if (stopped) return;
      outside.onWake(() => {
        if (!stopped) void go(false);
      });
      void go(false);
    },
    stop: () => {
      stopped = true;
      callOff();
    },
  };
}

/** Why nothing is sent from here at all; undefined when it may be. */
function whyNot({ outside, values }: Core): Outcome | undefined {
  if (values.get('token') === undefined) return { is: 'not-paired', why: text.engine.notPaired };
  // The token would be readable for everybody near.
  return outside.secure ? undefined : { is: 'insecure', why: text.engine.insecure };
}

async function exchanged(core: Core, byHand: boolean, save: Save): Promise<Outcome> {
  const { passing } = core;
  passing.exchange = { ...passing.exchange, is: 'sending', next: undefined };
  core.changed();
  try {
    const ended = await alone(core, byHand, (alive) => exchangeOnce(core, { byHand, alive, save }));
    return 'done' in ended ? ended.done : { is: 'idle', why: text.engine.elsewhere };
  } catch (error) {
    // The phone could not write what the logbook said; the logbook says it again.
    return { is: 'no-answer', why: error instanceof Error ? error.message : String(error) };
  }
}

/** Milliseconds until the next try, a third more or less by chance; undefined where trying again changes nothing. */
function waitAfter({ is, retryAfter }: Outcome, failures: number, chance: number): number | undefined {
  if (is === 'not-paired' || is === 'insecure') return undefined;
  if (failures === 0) return regularly;
  const wait = Math.min(longestWait, firstWait * 2 ** (failures - 1));
  return Math.max(wait * (0.67 + 0.66 * chance), retryAfter ?? 0);
}
