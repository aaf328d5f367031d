// Sending: first a greeting, by which the phone learns which logbook answers, what it has of this phone and what time
// it is there; then the entries in parts; then the photos, one by one.
import { text } from '../../text/index.ts';
import type { Core } from '../core.ts';
import { timeHere } from '../outside.ts';
import { photoJson } from '../photos.ts';
import { StorageError } from '../storage/database.ts';
import { keptNames, mustBeSameDevice } from '../storage/meta.ts';
import type { EntryRow, Meta, PhotoRow } from '../storage/rows.ts';
import { ask } from './asking.ts';
import { partsOf, settle } from './outbox.ts';
import { type Outcome, outcomeOf } from './outcome.ts';
import { type Hello, type Receipt, readExchanged } from './receipts.ts';

type Alive = () => Promise<void>;
type Exchanged = Outcome | Readonly<{ hello: Hello; receipts: readonly Receipt[] }>;

const done: Outcome = { is: 'idle' };

/** Greets the logbook without sending anything. */
export async function greet(core: Core, token: string | undefined): Promise<Outcome | Hello> {
  const exchanged = await post(core, token, { rows: [], lines: [] });
  if ('is' in exchanged) return exchanged;
  const { hello } = exchanged;
  const logbook = core.values.get('logbook');
  if (logbook !== undefined && logbook !== hello.logbook)
    return { is: 'other-logbook', why: text.engine.otherLogbook };
  // A phone too full to write that down still sends: what the logbook has is safe, and is confirmed another time.
  await learn(core, hello).catch((error: unknown) => {
    if (!(error instanceof StorageError && error.full)) throw error;
    core.values.note({ lastSeq: hello.lastSeq, logbook: hello.logbook });
  });
  core.changed();
  return hello;
}

/** Keeps what the greeting told. A number that the logbook has seen is never used again. */
async function learn({ notebook, values }: Core, { logbook, lastSeq }: Hello): Promise<void> {
  const seq = await notebook.write(['meta'], async (transaction) => {
    const store = transaction.objectStore('meta');
    await mustBeSameDevice(transaction, values.get('device'));
    const used = ((await store.get('seq')) as Meta['seq'] | undefined) ?? 0;
    const next = Math.max(used, lastSeq);
    await Promise.all([
      store.put(next, 'seq'),
      store.put(lastSeq, 'lastSeq'),
      store.put(logbook, 'logbook'),
      ...(['answeredAt', 'clockAhead'] as const).map((name) => store.put(values.get(name) ?? 0, name)),
    ]);
    return next;
  });
  values.note({ seq, lastSeq, logbook });
}

/** Sends entries; each leaves the outbox when its own receipt is written. */
export async function sendEntries(
  core: Core,
  token: string | undefined,
  { rows, alive }: { rows: readonly EntryRow[]; alive: Alive },
): Promise<Outcome> {
  for (const part of await partsOf(core, rows)) {
    await alive();
    const exchanged = await post(core, token, part);
    if ('is' in exchanged) return exchanged;
    if (exchanged.hello.logbook !== core.values.get('logbook'))
      return { is: 'other-logbook', why: text.engine.otherLogbook };
    await settle(core, exchanged.receipts);
  }
  return done;
}

async function post(
  core: Core,
  token: string | undefined,
  { rows, lines }: Awaited<ReturnType<typeof partsOf>>[number],
): Promise<Exchanged> {
  const { outside, values } = core;
  const answer = await ask(outside, token, {
    method: 'POST',
    path: 'exchange',
    body: { deviceTime: timeHere(outside, outside.now()), device: values.get('device'), lines },
  });
  if (answer.is !== 'answered') return outcomeOf(answer);
  const exchanged = readExchanged(answer.json, rows);
  if (exchanged === undefined) return { is: 'no-answer', why: text.engine.otherAnswer };
  // The logbook looked at its clock at some time between: half of the way is the best guess.
  const middle = (answer.sentAt + answer.heardAt) / 2;
  values.note({
    clockAhead: Math.round(middle - exchanged.hello.serverTime),
    answeredAt: answer.heardAt,
  });
  return exchanged;
}

/**
 * Sends the bytes of photos whose entry the logbook has. One that it does not take keeps no other one, stays with
 * what waits, and is tried again when a person asks.
 */
export async function sendPhotos(
  core: Core,
  token: string | undefined,
  { byHand, alive }: { byHand: boolean; alive: Alive },
): Promise<Outcome> {
  const { photos, held, passing, values } = core;
  for (const hash of await photos.waiting().catch(() => [])) {
    if (!byHand && values.kept(keptNames.refusedPhoto(hash)) !== undefined) continue;
    const row = await photos.get(hash);
    if (row === undefined || held.entry(row.entry)?.position === undefined) continue;
    await alive();
    const sent = await sendPhoto(core, token, row);
    if (sent.is !== 'idle') return sent;
    passing.photos = (await photos.waiting()).length;
    core.tell({});
    core.changed();
  }
  return done;
}

async function sendPhoto(core: Core, token: string | undefined, row: PhotoRow): Promise<Outcome> {
  const { photos, outside, values } = core;
  const { hash } = row;
  const refused = keptNames.refusedPhoto(hash);
  const answer = await ask(outside, token, { method: 'PUT', path: `sealed/${hash}`, body: photoJson(row) });
  if (answer.is === 'answered') {
    await photos.settle(hash, answer.json.outcome === 'erased' ? 'erased' : 'sent');
    if (values.kept(refused) !== undefined) await values.keep(refused, undefined);
    return done;
  }
  if (answer.is === 'refused' && [413, 415, 422].includes(answer.status)) {
    await values.keep(refused, answer.why);
    return done;
  }
  // The logbook does not know the entry yet: it is asked again another time.
  return answer.is === 'refused' && answer.status === 404 ? done : outcomeOf(answer);
}
