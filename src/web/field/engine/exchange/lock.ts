// Of several windows of the page one exchanges at a time. Sending twice would do no harm; it would cost signal and
// battery. Browsers have locks for that; for those that do not, a record with an end serves.
import type { Core } from '../core.ts';
import type { Meta } from '../storage/rows.ts';

/** After so many milliseconds without a sign of life the holder counts as gone. */
const leaseLasts = 90_000;
const name = 'gapledger-exchange';

export type Alone<T> = Readonly<{ done: T } | { elsewhere: true }>;

/**
 * Does something that only one window may do at a time.
 * @param byHand a person asks: a lease is taken from its holder, who may be a page that was killed
 * @param act is handed a sign of life, to be given before every step that may take long
 */
export async function alone<T>(
  core: Core,
  byHand: boolean,
  act: (alive: () => Promise<void>) => Promise<T>,
): Promise<Alone<T>> {
  const { locks } = core.outside;
  if (locks !== undefined) {
    return locks.request(
      name,
      { ifAvailable: true },
      async (lock): Promise<Alone<T>> =>
        lock === null ? { elsewhere: true } : { done: await act(async () => undefined) },
    );
  }
  const holder = core.outside.newId();
  const hold = (force: boolean) => takeLease(core, holder, force);
  if (!(await hold(byHand))) return { elsewhere: true };
  try {
    return { done: await act(async () => void (await hold(true))) };
  } finally {
    await giveBack(core, holder);
  }
}

function takeLease({ notebook, outside }: Core, holder: string, force: boolean): Promise<boolean> {
  return notebook.write(['meta'], async (transaction) => {
    const store = transaction.objectStore('meta');
    const lease = (await store.get('lease')) as Meta['lease'] | undefined;
    if (!force && lease !== undefined && lease.holder !== holder && lease.until > outside.now()) return false;
    await store.put({ holder, until: outside.now() + leaseLasts }, 'lease');
    return true;
  });
}

async function giveBack({ notebook }: Core, holder: string): Promise<void> {
  await notebook.write(['meta'], async (transaction) => {
    const store = transaction.objectStore('meta');
    const lease = (await store.get('lease')) as Meta['lease'] | undefined;
    if (lease?.holder === holder) await store.delete('lease');
  });
}
