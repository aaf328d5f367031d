// The way by files, without any server, and logbooks that come back from a backup.
import { readFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { type Network, newPhone, open, until, type Window } from './phone.ts';
import { restored } from './storage.ts';
import { note, openWoods, pairedPhone, type Woods } from './woods.ts';

const ends: (() => Promise<void>)[] = [];
async function woods(): Promise<Woods> {
  const opened = await openWoods();
  ends.push(opened.end);
  return opened;
}
afterAll(async () => {
  for (const end of ends) await end();
});

/** The whole logbook as a file of exchange lines, as the desk gives it. */
async function copyFrom(house: Woods): Promise<Uint8Array> {
  const answer = await house.ask('/api/exchange?limit=1000', { headers: { accept: 'application/x-ndjson' } });
  return new Uint8Array(await answer.arrayBuffer());
}

/** Takes a file in at the desk as lines of exchange, with the rights of the keeper. */
async function takenAtDesk(house: Woods, engine: Window): Promise<void> {
  const { bytes } = await engine.fileOf('outbox');
  const lines = new TextDecoder()
    .decode(bytes)
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as unknown);
  const answer = await house.ask('/api/exchange', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      deviceTime: new Date().toISOString(),
      device: engine.state().phone.device,
      lines,
    }),
  });
  expect(answer.status).toBe(200);
}

test('from copy to outbox and back: entries of a phone that never had a signal are confirmed by a file', async () => {
  const house = await woods();
  const engine = await open(newPhone());
  expect(await engine.takeIn(await copyFrom(house))).toMatchObject({ ok: true, confirmed: 0, unread: [] });
  expect(engine.state().phone.logbook).toBe(house.log.facts().logbook);
  await engine.introduce('Dell Pruitt', "Dell's phone");
  const photo = { bytes: new TextEncoder().encode('a picture'), mediaType: 'image/jpeg' };
  await note(engine);
  const taken = await engine.save({ kind: 'photo-taken', fields: {}, photo });
  expect(taken.ok).toBe(true);
  expect(engine.state().outbox).toMatchObject({ waiting: 3, photos: 1 });
  await takenAtDesk(house, engine);
  await takenAtDesk(house, engine);
  expect(await engine.takeIn(await copyFrom(house))).toMatchObject({ ok: true, fresh: 0, confirmed: 3 });
  expect(engine.state().outbox).toMatchObject({ waiting: 0, sent: 3 });
  expect((await house.entriesOf(engine.state().phone.device)).length).toBe(3);
  const hash = String(engine.state().folded.stand.photos[0]?.body.photo);
  expect(new TextDecoder().decode((await house.log.sealed(hash))?.bytes)).toBe('a picture');
});

test('a name that the logbook knows is nobody new', async () => {
  const house = await woods();
  const engine = await open(newPhone());
  await engine.takeIn(await copyFrom(house));
  await engine.introduce('ann weaver', "Ann's phone");
  expect(engine.state().outbox.waiting).toBe(0);
  expect(engine.state().folded.stand.people.has(engine.state().phone.person ?? '')).toBe(true);
});

test('the whole copy of one phone opens on another one', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  await note(engine);
  const { bytes, name } = await engine.fileOf('copy');
  // By the local time of the phone, five hours behind UTC.
  const minute = new Date(phone.now - 5 * 3_600_000).toISOString().slice(0, 16).replaceAll(/[:T]/g, '-');
  expect(name).toBe(`gapledger-copy-${minute}-ann-s-phone.ndjson`);
  const other = await open(newPhone());
  expect(await other.takeIn(bytes)).toMatchObject({ ok: true });
  expect([...other.state().folded.entries.keys()].sort()).toEqual(
    [...engine.state().folded.entries.keys()].sort(),
  );
  // What the first phone has yet to send the other one does not count as its own.
  expect(other.state().outbox.waiting).toBe(0);
});

test('a copy of another logbook is refused whole; a cut line is named and keeps no other one', async () => {
  const [house, strange] = [await woods(), await woods()];
  const engine = await open(newPhone());
  const copy = new TextDecoder().decode(await copyFrom(house));
  const cut = new TextEncoder().encode(`${copy.trimEnd().slice(0, -40)}\n`);
  const taken = await engine.takeIn(cut);
  expect(taken).toMatchObject({ ok: true });
  const { size } = await house.log.head();
  expect(taken.ok && taken.fresh).toBe(size - 1);
  expect(taken.ok && taken.unread[0]).toMatch(new RegExp(`^Line ${size}: .*not JSON`));
  expect(await engine.takeIn(await copyFrom(strange))).toMatchObject({ ok: false });
  expect(engine.state().phone.logbook).toBe(house.log.facts().logbook);
  for (const empty of ['', '\n\n', 'hello'])
    expect(await engine.takeIn(new TextEncoder().encode(empty))).toMatchObject({ ok: false });
});

test('a logbook that is restored from an old backup gets everything again that this phone recorded', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const ids = [await note(engine), await note(engine)];
  await engine.exchange();
  expect(engine.state().outbox.sent).toBe(2);
  const sent: string[] = [];
  const older = rolledBack(house.network, (await house.log.head()).size - ids.length);
  phone.network = (address, request) => {
    sent.push(...idsIn(request));
    return older(address, request);
  };
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(sent).toEqual(ids);
  expect(engine.state().outbox).toMatchObject({ waiting: 0, sent: 2 });
});

/** Ids of the entries that a question carries. */
function idsIn({ body }: RequestInit): string[] {
  if (typeof body !== 'string') return [];
  const { lines = [] } = JSON.parse(body) as { lines?: { entry: string }[] };
  return lines.map(({ entry }) => (JSON.parse(entry) as { id: string }).id);
}

/** The logbook as it was at a size, until something is sent to it: then it has what it had before. */
function rolledBack(network: Network, size: number): Network {
  let isOld = true;
  return async (address, request) => {
    if (idsIn(request).length > 0) isOld = false;
    const answer = await network(address, request);
    if (!isOld || !address.includes('/api/exchange')) return answer;
    const { head, lines, ...rest } = (await answer.json()) as Readonly<{
      head: object;
      lines?: readonly Readonly<{ receipt: { position: number } }>[];
    }>;
    const read = lines?.filter(({ receipt }) => receipt.position < size);
    const page = read === undefined ? {} : { size, lines: read, next: null };
    return Response.json({ ...rest, head: { ...head, size }, ...page });
  };
}

/** The JSON of a stored database: bytes are written as base64. */
type Bytes = Readonly<{ base64: string }>;
const revive = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'base64' in value
    ? new Uint8Array(Buffer.from((value as Bytes).base64, 'base64'))
    : value;

test('an outbox file of the first format is taken in, by a phone and at the desk', async () => {
  const engine = await open(newPhone());
  const outbox = readFileSync(new URL('formats/outbox-1.ndjson', import.meta.url));
  expect(await engine.takeIn(outbox)).toMatchObject({ ok: true, fresh: 4, unread: [] });
  expect([...engine.state().folded.stand.stems.values()].map(({ tag }) => tag)).toEqual(['A12']);
});

test('a database of the first format opens with everything in it, and its outbox arrives', async () => {
  const phone = newPhone();
  const written = readFileSync(new URL('formats/database-1.json', import.meta.url), 'utf8');
  phone.storage = await restored(JSON.parse(written, revive) as Parameters<typeof restored>[0]);
  const engine = await open(phone);
  // The photos are counted a little after the entries stand there.
  await until(engine, () => engine.state().outbox.photos === 1);
  const { outbox, phone: it, folded } = engine.state();
  expect(outbox.waiting).toBe(4);
  expect(it).toMatchObject({ label: "Ann's phone", personName: 'Ann Weaver' });
  expect([...folded.stand.stems.values()].map(({ tag }) => tag)).toEqual(['A12']);
  expect(await engine.draft('note')).toEqual({ text: 'wind rising' });
  const house = await woods();
  await takenAtDesk(house, engine);
  expect((await house.entriesOf(it.device)).length).toBe(4);
  const saved = await note(engine);
  expect(engine.state().folded.entries.get(saved)?.seq).toBe(5);
});
