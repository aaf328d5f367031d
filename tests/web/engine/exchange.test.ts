// Sending and reading against the real server: what is sent arrives once, whatever the network does.
import { afterAll, expect, test } from 'vitest';
import { newPhone, open, until } from './phone.ts';
import { copyOf, restored } from './storage.ts';
import { isSending, losing, note, nowhere, openWoods, pairedPhone, type Woods } from './woods.ts';

const ends: (() => Promise<void>)[] = [];
async function woods(): Promise<Woods> {
  const opened = await openWoods();
  ends.push(opened.end);
  return opened;
}
afterAll(async () => {
  for (const end of ends) await end();
});

test('a paired phone has what the logbook has, and what it records arrives signed', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const before = engine.state();
  expect(before.phone).toMatchObject({
    paired: true,
    personName: 'Ann Weaver',
    signs: true,
    role: 'recorder',
  });
  expect(before.phone.logbook).toBe(house.log.facts().logbook);
  expect(before.folded.entries.size).toBe((await house.log.head()).size);
  const id = await note(engine);
  expect(engine.state().outbox).toMatchObject({ waiting: 1, sent: 0 });
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(engine.state().outbox).toMatchObject({ waiting: 0, oldest: undefined, sent: 1 });
  expect(await house.entriesOf(before.phone.device)).toEqual([id]);
  const stored = await house.log.get(id);
  expect(engine.state().folded.entries.get(id)?.position).toBe(stored?.position);
  expect(stored?.signature).toBeDefined();
  // What was confirmed is not sent again.
  phone.network = (address, request) => {
    expect(isSending(address, request)).toBe(false);
    return house.network(address, request);
  };
  expect(await engine.exchange()).toEqual({ ok: true });
});

test('an answer that gets lost is asked for again, and nothing is recorded twice', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const id = await note(engine);
  phone.network = losing(house.network, isSending);
  expect(await engine.exchange()).toMatchObject({ ok: false });
  // The logbook has it; the phone does not say so before it knows.
  expect(await house.entriesOf(engine.state().phone.device)).toEqual([id]);
  expect(engine.state().outbox.waiting).toBe(1);
  expect(engine.state().exchange.is).toBe('no-answer');
  phone.network = house.network;
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(await house.entriesOf(engine.state().phone.device)).toEqual([id]);
  expect(engine.state().outbox).toMatchObject({ waiting: 0, sent: 1 });
});

test('a page that is killed before the answer is stored sends once more after it was opened again', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const id = await note(engine);
  await new Promise<void>((killed) => {
    phone.network = async (address, request) => {
      const answer = await house.network(address, request);
      if (!isSending(address, request)) return answer;
      engine.stop();
      killed();
      return new Promise(() => undefined);
    };
    void engine.exchange();
  });
  phone.network = house.network;
  const again = await open(phone);
  expect(again.state().outbox.waiting).toBe(1);
  expect(await again.exchange()).toEqual({ ok: true });
  expect(again.state().outbox).toMatchObject({ waiting: 0, sent: 1 });
  expect(await house.entriesOf(again.state().phone.device)).toEqual([id]);
});

test('with every third answer lost a day of entries still arrives whole', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  let asked = 0;
  phone.network = losing(house.network, () => {
    asked += 1;
    return asked % 3 === 0;
  });
  const ids: string[] = [];
  for (let count = 0; count < 12; count += 1) {
    ids.push(await note(engine));
    await engine.exchange();
  }
  phone.network = house.network;
  await engine.exchange();
  expect(await house.entriesOf(engine.state().phone.device)).toEqual(ids);
  expect(engine.state().outbox.waiting).toBe(0);
});

test('an answer that is none takes nothing out of the outbox: a sign-in page answers 200 too', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  await note(engine);
  const fakes = [
    () => new Response('<html>Welcome to the wireless network</html>', { status: 200 }),
    () => Response.json({ ok: true }),
    () => Response.json({ receipts: [], logbook: 'x', lastSeq: 0, head: { size: 1 }, serverTime: 'now' }),
    () => new Response('<html>Sign in</html>', { status: 401 }),
    () => new Response(null, { status: 502 }),
  ];
  for (const fake of fakes) {
    phone.network = async () => fake();
    expect(await engine.exchange()).toMatchObject({ ok: false });
    expect(engine.state().exchange.is).toBe('no-answer');
    expect(engine.state().outbox.waiting).toBe(1);
    expect(engine.state().phone.paired).toBe(true);
  }
});

test('what the logbook cannot take is put before a person, and what came later goes on', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const spoiled = await note(engine);
  const later = await note(engine);
  // One bit of the first signature is lost on the way.
  phone.network = (address, request) => {
    if (!isSending(address, request)) return house.network(address, request);
    const body = JSON.parse(typeof request.body === 'string' ? request.body : '{}') as {
      lines: { signature: { signature: string } }[];
    };
    const [first] = body.lines;
    if (first) first.signature.signature = `A${first.signature.signature.slice(1)}`;
    return house.network(address, { ...request, body: JSON.stringify(body) });
  };
  await engine.exchange();
  expect(engine.state().attention).toMatchObject([
    { id: spoiled, type: 'note-written', outcome: 'unreadable', field: 'signature' },
  ]);
  expect(engine.state().outbox).toMatchObject({ waiting: 1, sent: 1 });
  expect(await house.entriesOf(engine.state().phone.device)).toEqual([later]);
  // By hand it is tried again, and now it comes through.
  phone.network = house.network;
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(engine.state().attention).toEqual([]);
  expect(engine.state().outbox).toMatchObject({ waiting: 0, sent: 2 });
});

test('a photo goes after its entry and can be lost on the way like everything else', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const bytes = new TextEncoder().encode('the bytes of a picture');
  const saved = await engine.save({
    kind: 'photo-taken',
    fields: { of: 'a stump' },
    photo: { bytes, mediaType: 'image/jpeg' },
  });
  expect(saved).toMatchObject({ ok: true });
  expect(engine.state().outbox.photos).toBe(1);
  phone.network = losing(house.network, (_, { method }) => method === 'PUT');
  expect(await engine.exchange()).toMatchObject({ ok: false });
  expect(engine.state().outbox).toMatchObject({ waiting: 0, sent: 1, photos: 1 });
  phone.network = house.network;
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(engine.state().outbox.photos).toBe(0);
  const [photo] = engine.state().folded.stand.photos;
  const hash = String(photo?.body.photo);
  expect(new TextDecoder().decode((await house.log.sealed(hash))?.bytes)).toBe('the bytes of a picture');
  expect(await (await engine.photo(hash))?.text()).toBe('the bytes of a picture');
});

test('a photo that the logbook does not take stays with what waits, is put before a person, and holds no other one up', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const photo = (text: string) =>
    engine.save({
      kind: 'photo-taken',
      fields: { of: text },
      photo: { bytes: new TextEncoder().encode(text), mediaType: 'image/jpeg' },
    });
  const refused = await photo('a picture that is too large');
  await photo('another picture');
  const hash = String(engine.state().folded.stand.photos[0]?.body.photo);
  let asked = 0;
  phone.network = async (address, request) => {
    if (!address.endsWith(hash)) return house.network(address, request);
    asked += 1;
    return Response.json(
      { code: 'too-large', title: 'Too large', detail: 'It is too large.' },
      { status: 413 },
    );
  };
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(engine.state().outbox).toMatchObject({ waiting: 0, photos: 1 });
  expect(engine.state().attention).toMatchObject([
    { id: refused.ok ? refused.id : '', outcome: 'photo-refused', remedy: 'It is too large.' },
  ]);
  engine.stop();
  const again = await open(phone);
  await until(again, () => again.state().outbox.photos === 1);
  expect(again.state().attention).toHaveLength(1);
  // By itself it is not sent again and again; a person may ask.
  for (const wake of phone.wake) wake();
  await until(again, () => again.state().exchange.is === 'idle' && again.state().exchange.next !== undefined);
  expect(asked).toBe(1);
  phone.network = house.network;
  expect(await again.exchange()).toEqual({ ok: true });
  expect(again.state().outbox.photos).toBe(0);
  expect(again.state().attention).toEqual([]);
  again.stop();
});

test('nothing is sent to another logbook than the one that this phone writes for', async () => {
  const [house, other] = [await woods(), await woods()];
  const { phone, engine } = await pairedPhone(house);
  await note(engine);
  phone.network = async (address, request) => {
    const answer = await house.network(address, request);
    if (!address.endsWith('/api/exchange')) return answer;
    return Response.json({ ...((await answer.json()) as object), logbook: other.log.facts().logbook });
  };
  expect(await engine.exchange()).toMatchObject({ ok: false });
  expect(engine.state().exchange.is).toBe('other-logbook');
  expect(await house.entriesOf(engine.state().phone.device)).toEqual([]);
});

test('a phone whose token was taken back says so and keeps what waits', async () => {
  const house = await woods();
  const { engine } = await pairedPhone(house);
  await note(engine);
  house.registry.revoke(engine.state().phone.device, new Date().toISOString());
  expect(await engine.exchange()).toMatchObject({ ok: false });
  expect(engine.state().exchange).toMatchObject({ is: 'not-paired', next: undefined });
  expect(engine.state().outbox.waiting).toBe(1);
});

test('over plain HTTP from another machine no token leaves the phone', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  engine.stop();
  const asked: string[] = [];
  phone.network = (address) => {
    asked.push(address);
    return nowhere(address, {});
  };
  const insecure = await open(phone, { secure: false, subtle: undefined });
  await note(insecure);
  expect(await insecure.exchange()).toMatchObject({ ok: false });
  expect(insecure.state().exchange.is).toBe('insecure');
  expect(asked).toEqual([]);
});

test('a phone that is restored from an old copy goes on after the numbers that the logbook has seen', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  await note(engine);
  await engine.exchange();
  const device = engine.state().phone.device;
  engine.stop();
  const copy = await copyOf(phone.storage);
  const later = await open(phone);
  const lost = [await note(later), await note(later)];
  await later.exchange();
  later.stop();
  phone.storage = await restored(copy);
  const restoredPhone = await open(phone);
  expect(restoredPhone.state().phone.device).toBe(device);
  // The logbook tells how many are missing before it gives them back.
  let missing = 0;
  restoredPhone.subscribe(() => {
    missing = Math.max(missing, restoredPhone.state().exchange.lost);
  });
  await restoredPhone.exchange();
  expect(missing).toBe(2);
  expect(restoredPhone.state().exchange.lost).toBe(0);
  for (const id of lost) expect(restoredPhone.state().folded.entries.has(id)).toBe(true);
  const next = await note(restoredPhone);
  expect(restoredPhone.state().folded.entries.get(next)?.seq).toBe(4);
});

test('a clock that is far off is recorded once with the exchange, and again when it was put right; no time is rewritten', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const noted = () =>
    [...engine.state().folded.entries.values()]
      .filter(({ type }) => type === 'clock-offset-noted')
      .map(({ body }) => Number((body.ahead as { value: string }).value));
  expect(noted()).toEqual([]);
  const hours = [5, -5, 0];
  for (const [index, ahead] of hours.entries()) {
    // The server's clock is that of this machine.
    phone.now = Date.now() + ahead * 3_600_000;
    const id = await note(engine);
    const written = engine.state().folded.entries.get(id)?.recordedAt;
    for (const _ of [1, 2]) await engine.exchange();
    expect(Math.abs((engine.state().exchange.clockAhead ?? 0) - ahead * 3_600_000)).toBeLessThan(5_000);
    expect(noted().length).toBe(index + 1);
    expect(Math.abs((noted().at(-1) ?? 0) - ahead * 3600)).toBeLessThan(5);
    expect(engine.state().exchange.clockRecorded).toBe((noted().at(-1) ?? 0) * 1000);
    expect(Math.abs(Date.parse(written ?? '') - phone.now)).toBeLessThan(1_000);
    expect(engine.state().folded.entries.get(id)?.recordedAt).toBe(written);
    // It is sent like everything else, and is no work of anybody's.
    expect(engine.state().outbox.waiting).toBe(0);
    expect(engine.state().saved.at(-1)).toBe(id);
  }
  // Written five hours ahead, five hours behind and right, in that order: so they stand.
  const texts = engine
    .state()
    .folded.stand.notes.flatMap(({ body }) => (body.text.startsWith('note') ? [body.text] : []));
  expect(texts).toHaveLength(hours.length);
  expect(texts).toEqual([...texts].sort());
  phone.now = Date.now() + 110_000;
  await engine.exchange();
  expect(noted().length).toBe(hours.length);
});

test('what was recorded before the phone had a key is signed when it is sent, its bytes as they were', async () => {
  const house = await woods();
  const phone = newPhone(house.network);
  const before = await open(phone, { subtle: undefined });
  await before.introduce('Ann Weaver', "Ann's phone");
  const id = await note(before);
  const written = await before.fileOf('outbox');
  before.stop();
  const engine = await open(phone);
  expect(engine.state().phone.signs).toBe(false);
  const code = house.codes.make('recorder').code;
  expect(await engine.pair({ code, label: "Ann's phone", personName: 'Ann Weaver' })).toEqual({ ok: true });
  expect(engine.state().phone.signs).toBe(true);
  expect(await engine.exchange()).toEqual({ ok: true });
  expect(engine.state().attention).toEqual([]);
  expect(engine.state().outbox.waiting).toBe(0);
  const stored = await house.log.get(id);
  expect(stored?.signature).toBeDefined();
  const lines = new TextDecoder().decode(written.bytes).trim().split('\n');
  const entries = lines.map((line) => (JSON.parse(line) as { entry: string }).entry);
  expect(entries).toContain(new TextDecoder().decode(stored?.bytes));
});

test('an entry is struck with a reason, and the strike is sent like everything else', async () => {
  const house = await woods();
  const { engine } = await pairedPhone(house);
  const id = await note(engine);
  expect(await engine.undo(id, 'recorded twice')).toMatchObject({ ok: true });
  expect(engine.state().folded.standings.get(id)).toBe('struck');
  await engine.exchange();
  expect((await house.entriesOf(engine.state().phone.device)).length).toBe(2);
});

test('after a failure it is tried again by itself, later each time, and at once when the page is looked at', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  await note(engine);
  phone.network = nowhere;
  const waits: number[] = [];
  for (let count = 0; count < 10; count += 1) {
    await engine.exchange();
    waits.push((engine.state().exchange.next ?? 0) - phone.now);
  }
  expect(waits[0]).toBeLessThan(10_000);
  expect(waits).toEqual([...waits].sort((a, b) => a - b));
  expect(waits.at(-1)).toBe(15 * 60_000);
  phone.network = house.network;
  for (const wake of phone.wake) wake();
  await until(engine, () => engine.state().outbox.waiting === 0);
});
