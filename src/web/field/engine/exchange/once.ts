// One exchange from beginning to end.

import { noteClock } from '../clock.ts';
import type { Core } from '../core.ts';
import type { Saved, Wanted } from '../port.ts';
import { refusedRows, waitingRows } from './outbox.ts';
import type { Outcome } from './outcome.ts';
import { readOn } from './reading.ts';
import { greet, sendEntries, sendPhotos } from './sending.ts';
import { startOver } from './start-over.ts';

type Alive = () => Promise<void>;
export type Save = (wanted: Wanted) => Promise<Saved>;

/**
 * Sends and reads. What the logbook could not take is tried again only when a person asks.
 * @param alive gives a sign of life, so that no other window takes over
 * @param save keeps what the phone itself has to record
 */
export async function exchangeOnce(
  core: Core,
  { byHand, alive, save }: { byHand: boolean; alive: Alive; save: Save },
): Promise<Outcome> {
  const token = core.values.get('token');
  // A reader sends nothing; what a phone with this role has recorded waits for a better one.
  if (core.values.get('role') === 'reader') {
    const read = await readOn(core, token, alive);
    return read === 'rewritten' ? afterStartingOver(core, token, { byHand, alive }) : read;
  }
  const hello = await greet(core, token);
  if ('is' in hello) return hello;
  await noteClock(core, save);
  if (hello.size < (core.values.get('readTo') ?? 0)) await startOver(core);
  const sent = await send(core, token, { byHand, alive });
  if (sent.is !== 'idle') return sent;
  const read = await readOn(core, token, alive);
  if (read === 'rewritten') return afterStartingOver(core, token, { byHand, alive });
  if (read.is !== 'idle') return read;
  return sendPhotos(core, token, { byHand, alive });
}

async function send(
  core: Core,
  token: string | undefined,
  { byHand, alive }: { byHand: boolean; alive: Alive },
): Promise<Outcome> {
  const sent = await sendEntries(core, token, { rows: await waitingRows(core), alive });
  if (sent.is !== 'idle' || !byHand) return sent;
  return sendEntries(core, token, { rows: await refusedRows(core), alive });
}

/** Everything from the beginning, once; what then still does not fit is told, not tried for ever. */
async function afterStartingOver(
  core: Core,
  token: string | undefined,
  { byHand, alive }: { byHand: boolean; alive: Alive },
): Promise<Outcome> {
  await startOver(core);
  if (core.values.get('role') !== 'reader') {
    const sent = await send(core, token, { byHand: false, alive });
    if (sent.is !== 'idle') return sent;
  }
  const read = await readOn(core, token, alive);
  if (read === 'rewritten') return { is: 'no-answer' };
  if (read.is !== 'idle' || core.values.get('role') === 'reader') return read;
  return sendPhotos(core, token, { byHand, alive });
}
