// What the phone's own storage may do: serve two windows, fill up, be refused, lose its photos,
// be wiped.
import { afterAll, expect, test } from 'vitest';
import { newPhone, open, type Phone, until } from './phone.ts';
import { note, nowhere, openWoods, pairedPhone, type Woods } from './woods.ts';

const ends: (() => Promise<void>)[] = [];
async function woods(): Promise<Woods> {
  const opened = await openWoods();
  ends.push(opened.end);
  return opened;
}
afterAll(async () => {
  for (const end of ends) await end();
});

async function introduced(phone: Phone) {
  const engine = await open(phone);
  await engine.introduce('Ann Weaver', "Ann's phone");
  return engine;
}

test('two windows that save at the same time use every sequence number once', async () => {
  const phone = newPhone();
  const first = await introduced(phone);
  const second = await open(phone);
  await Promise.all([1, 2, 3, 4, 5].flatMap(() => [note(first), note(second)]));
  first.stop();
  second.stop();
  const again = await open(phone);
  const seqs = [...again.state().folded.entries.values()].map(({ seq }) => seq).sort((a, b) => a - b);
  expect(seqs).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
});

test('what one window saves the other shows', async () => {
  const phone = newPhone();
  const first = await introduced(phone);
  const second = await open(phone);
  const id = await note(first);
  await until(second, () => second.state().folded.entries.has(id));
  expect(second.state().outbox.waiting).toBe(2);
});

test('of two windows that exchange at once one sends, with locks and without', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const other = await open(phone);
  const ids = [await note(engine), await note(other)];
  const [one, two] = await Promise.all([engine.exchange(), other.exchange()]);
  expect([one.ok, two.ok]).toContain(true);
  await engine.exchange();
  expect((await house.entriesOf(engine.state().phone.device)).sort()).toEqual(ids.sort());
});

/** A storage whose writes into a store fail as those of a full phone do. */
function full(phone: Phone, store: string): Phone['storage'] {
  return new Proxy(phone.storage, {
    get: (target, member) => {
      if (member !== 'open') return Reflect.get(target, member) as unknown;
      return (name: string, version?: number) => {
        const request = target.open(name, version);
        request.addEventListener('success', () => {
          const db = request.result;
          const transaction = db.transaction.bind(db);
          db.transaction = (names, mode, options) => {
            if (mode === 'readwrite' && [names].flat().includes(store))
              throw new DOMException('no space left', 'QuotaExceededError');
            return transaction(names, mode, options);
          };
        });
        return request;
      };
    },
  });
}

test('a full phone says so, keeps the draft and stores nothing by halves; with space again it goes on', async () => {
  const phone = newPhone();
  const engine = await introduced(phone);
  engine.stop();
  const enough = phone.storage;
  phone.storage = full(phone, 'entries');
  const narrow = await open(phone);
  await narrow.keepDraft('note', { text: 'wind rising' });
  await expect(note(narrow)).rejects.toThrow('This phone is full');
  expect(narrow.state().storage.full).toBe(true);
  expect(narrow.state().outbox.waiting).toBe(1);
  narrow.stop();
  phone.storage = enough;
  const wide = await open(phone);
  expect(await wide.draft('note')).toEqual({ text: 'wind rising' });
  const id = await note(wide);
  expect(wide.state().folded.entries.get(id)?.seq).toBe(2);
});

test('where the photos cannot be kept the entries still open and are still saved', async () => {
  const phone = newPhone();
  const engine = await introduced(phone);
  await note(engine);
  engine.stop();
  phone.storage = full(phone, 'photos');
  const narrow = await open(phone);
  expect(narrow.state().outbox.waiting).toBe(2);
  await note(narrow);
  const photo = { bytes: Uint8Array.of(1, 2, 3), mediaType: 'image/jpeg' };
  await expect(narrow.save({ kind: 'photo-taken', fields: {}, photo })).rejects.toThrow('This phone is full');
  // An entry whose photo is nowhere would name something that nobody has.
  expect(narrow.state().folded.stand.photos).toEqual([]);
});

test('in a window that may store nothing the page says so and never claims to have saved', async () => {
  const phone = newPhone();
  phone.storage = new Proxy(phone.storage, {
    get: () => () => {
      throw new DOMException('private window', 'SecurityError');
    },
  });
  const engine = await open(phone);
  expect(engine.state().storage.works).toBe(false);
  await expect(note(engine)).rejects.toThrow('keeps nothing');
  await engine.keepDraft('note', { text: 'x' });
  expect(await engine.draft('note')).toEqual({ text: 'x' });
});

test('a draft, a remembered value and a setting survive a page that is killed', async () => {
  const phone = newPhone();
  const engine = await open(phone);
  await engine.keepDraft('mark', { tag: 'A12', dbh: '14' });
  await engine.remember('mark', { species: 'QUAL' });
  await engine.setSetting('units', 'metric');
  const again = await open(phone);
  expect(await again.draft('mark')).toEqual({ tag: 'A12', dbh: '14' });
  expect(again.remembered('mark')).toEqual({ species: 'QUAL' });
  expect(again.setting('units')).toBe('metric');
  await again.keepDraft('mark', undefined);
  expect(await again.draft('mark')).toBeUndefined();
});

test('a wiped phone is another device, and the logbook keeps what it had sent', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  const before = engine.state().phone.device;
  const id = await note(engine);
  await engine.exchange();
  engine.stop();
  phone.storage = newPhone().storage;
  const wiped = await open(phone);
  expect(wiped.state().phone.device).not.toBe(before);
  expect(wiped.state().phone.paired).toBe(false);
  const code = house.codes.make('recorder').code;
  await wiped.pair({ code, label: "Ann's phone", personName: 'Ann Weaver' });
  await wiped.exchange();
  expect(wiped.state().folded.entries.get(id)?.device).toBe(before);
});

test('a phone forgets nothing while something waits, and everything but its settings afterwards', async () => {
  const house = await woods();
  const { phone, engine } = await pairedPhone(house);
  await engine.setSetting('light', 'dusk');
  await note(engine);
  phone.network = nowhere;
  await engine.exchange();
  expect(await engine.forget()).toMatchObject({ ok: false });
  phone.network = house.network;
  await engine.exchange();
  const device = engine.state().phone.device;
  expect(await engine.forget()).toEqual({ ok: true });
  const { phone: after, folded } = engine.state();
  expect(after).toMatchObject({ paired: false, logbook: undefined, person: undefined });
  expect(after.device).not.toBe(device);
  expect(folded.entries.size).toBe(0);
  expect(engine.setting('light')).toBe('dusk');
});

test('without keys of the browser entries are kept unsigned', async () => {
  const engine = await open(newPhone(), { subtle: undefined });
  await engine.introduce('Ann Weaver', "Ann's phone");
  expect(engine.state().phone.signs).toBe(false);
  const { bytes } = await engine.fileOf('outbox');
  expect(new TextDecoder().decode(bytes)).not.toContain('"signature"');
});
