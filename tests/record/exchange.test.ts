// What phones send: lines with rows and signatures. A device that has a key is held to it; a photo may come later.
import { describe, expect, it } from 'vitest';
import { parseBody } from '../../src/events/index.ts';
import { type ExchangeLine, readEnvelope } from '../../src/log/entry/index.ts';
import type { Receipt } from '../../src/log/store/index.ts';
import {
  exchangeIncoming,
  outboxLines,
  type ReceiveOptions,
  readStand,
  receive,
  supplySealed,
} from '../../src/record/index.ts';
import { fileOf, markOf, type Phone, phone, rowOf } from './phone.ts';
import { emptyWoods, type Woods } from './woods.ts';

const received = '2026-03-20T15:00:00.000Z';

/** Takes in lines as a file of them is taken in. */
function take(here: Woods, lines: readonly ExchangeLine[], options?: ReceiveOptions) {
  const incoming = outboxLines(fileOf(lines)).map((line) => line.incoming);
  return receive(here.log, incoming, received, options);
}

async function pair(here: Woods, { device, publicKey }: Phone): Promise<void> {
  await here.record('device-paired', { device, label: "Jo's phone", publicKey, person: 'Ann Weaver' });
}

const issuesOf = (receipts: readonly Receipt[]) =>
  receipts.map((receipt) => (receipt.outcome === 'unreadable' ? receipt.issue.field : receipt.outcome));

describe('a line with what goes beside it', () => {
  it('brings signature and rows into the log', async () => {
    const here = await emptyWoods();
    const jo = phone();
    const name = rowOf('Jo Sawyer');
    const line = jo.write('person-named', { person: jo.device, name: name.hash }, { sealed: [name.hash] });
    expect(await take(here, [{ ...line, sealed: [name] }])).toMatchObject({ recorded: 1 });
    const stored = await here.log.get(readEnvelope(line.bytes).id);
    expect(Buffer.compare(stored?.bytes ?? Buffer.of(), line.bytes)).toBe(0);
    expect(stored?.signature).toEqual(line.signature);
    expect(Buffer.from((await here.log.sealed(name.hash))?.bytes ?? []).toString()).toBe('Jo Sawyer');
  });

  it('lies among bare entries in one file, and a receipt in it is passed over', async () => {
    const here = await emptyWoods();
    const jo = phone();
    const [one, two] = [
      jo.write('note-written', { text: 'rain' }),
      jo.write('note-written', { text: 'wind' }),
    ];
    const file = Uint8Array.from(
      Buffer.concat([
        fileOf([{ ...one, receipt: { position: 400, receivedAt: received } }]),
        two.bytes,
        Buffer.from('\r\n'),
      ]),
    );
    const lines = outboxLines(file);
    expect(lines.map(({ number }) => number)).toEqual([1, 2]);
    expect(lines.map(({ incoming }) => incoming)).toEqual([
      { bytes: one.bytes, signature: one.signature },
      { bytes: two.bytes },
    ]);
    const { receipts } = await receive(
      here.log,
      lines.map(({ incoming }) => incoming),
      received,
    );
    expect(receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'recorded']);
  });

  it('that cannot be read is kept aside as it came, with the field that is wrong, and the others go in', async () => {
    const here = await emptyWoods();
    const broken = '{"entry":"{}","sealed":[{"hash":"x"}]}';
    const lines = outboxLines(
      Buffer.from(
        `${broken}\n${Buffer.from(fileOf([phone().write('note-written', { text: 'rain' })])).toString()}`,
      ),
    );
    const { receipts } = await receive(
      here.log,
      lines.map(({ incoming }) => incoming),
      received,
    );
    expect(issuesOf(receipts)).toEqual(['sealed.0', 'recorded']);
    expect((await here.log.aside()).map(({ bytes }) => Buffer.from(bytes).toString())).toEqual([broken]);
  });

  it('may come as JSON already, over HTTP; what is none is kept as JSON', () => {
    const line = phone().write('note-written', { text: 'rain' });
    const json = JSON.parse(Buffer.from(fileOf([line])).toString()) as unknown;
    expect(exchangeIncoming(json)).toEqual({ bytes: line.bytes, signature: line.signature });
    const incoming = exchangeIncoming({ id: 'x' });
    expect(Buffer.from(incoming.bytes).toString()).toBe('{"id":"x"}');
    expect(incoming.issue?.field).toBe('id');
  });
});

describe('a device that has a key in the log', () => {
  async function paired(): Promise<{ here: Woods; jo: Phone }> {
    const here = await emptyWoods();
    const jo = phone();
    await pair(here, jo);
    return { here, jo };
  }

  it('has its signed entries recorded', async () => {
    const { here, jo } = await paired();
    expect(await take(here, [jo.write('stem-marked', markOf('P1'))])).toMatchObject({ recorded: 1 });
  });

  it('has entries put aside that are not signed, signed by another key or changed on the way; later ones go in', async () => {
    const { here, jo } = await paired();
    const other = phone(jo.device);
    const unsigned = { bytes: jo.write('stem-marked', markOf('P1')).bytes };
    const foreign = other.write('stem-marked', markOf('P2'));
    const good = jo.write('stem-marked', markOf('P3'));
    const changed = { ...good, bytes: jo.write('stem-marked', markOf('P4')).bytes };
    const result = await take(here, [unsigned, foreign, changed, good]);
    expect(issuesOf(result.receipts)).toEqual(['signature', 'signature', 'signature', 'recorded']);
    const aside = await here.log.aside();
    expect(aside.map(({ bytes, signature }) => ({ bytes, signature }))).toEqual(
      [
        { bytes: unsigned.bytes, signature: undefined },
        { bytes: foreign.bytes, signature: foreign.signature },
        { bytes: changed.bytes, signature: changed.signature },
      ].map((one) => ({ ...one, bytes: Buffer.from(one.bytes) })),
    );
  });

  it('is held to it still when its pairing was struck, or when it was revoked', async () => {
    const { here, jo } = await paired();
    const { size } = await here.log.head();
    await here.record('entry-struck', { strikes: String(size - 1), reason: 'a mistake' });
    await here.record('device-revoked', { device: jo.device, reason: 'lost' });
    const unsigned = { bytes: jo.write('stem-marked', markOf('P1')).bytes };
    expect(issuesOf((await take(here, [unsigned])).receipts)).toEqual(['signature']);
  });

  it('is another one than the phone beside it, which has none', async () => {
    const { here } = await paired();
    const unsigned = { bytes: phone().write('stem-marked', markOf('P1')).bytes };
    expect(await take(here, [unsigned])).toMatchObject({ recorded: 1 });
  });

  it('may be paired within the file that brings its entries: those after the pairing need a signature', async () => {
    const here = await emptyWoods();
    const jo = phone();
    const lines = [
      { bytes: jo.write('note-written', { text: 'before it had a key' }).bytes },
      jo.write('device-paired', {
        device: jo.device,
        label: "Jo's phone",
        publicKey: jo.publicKey,
        person: jo.device,
      }),
      jo.write('note-written', { text: 'signed' }),
      { bytes: jo.write('note-written', { text: 'not signed' }).bytes },
    ];
    const { receipts } = await take(here, lines);
    expect(issuesOf(receipts)).toEqual(['recorded', 'recorded', 'recorded', 'signature']);
  });

  it('may not pair or revoke by itself over the air; at the desk its file may', async () => {
    const { here, jo } = await paired();
    const revoked = jo.write('device-revoked', { device: phone().device, reason: 'a rival' });
    const { receipts } = await take(here, [revoked], { unattended: true });
    expect(issuesOf(receipts)).toEqual(['type']);
    expect(await take(here, [revoked])).toMatchObject({ recorded: 1 });
  });

  it('that was revoked has its entries taken in all the same, as a finding', async () => {
    const { here, jo } = await paired();
    await here.record('device-revoked', { device: jo.device, reason: 'lost' });
    const late = jo.write('stem-marked', markOf('P1'), { recordedAt: '2026-03-21T09:00:00-04:00' });
    expect(await take(here, [late])).toMatchObject({ recorded: 1 });
    const findings = (await readStand(here.log)).findings.map(({ code }) => code);
    expect(findings).toContain('entry-of-revoked-device');
  });
});

describe('a photo', () => {
  const picture = rowOf(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), 'image/jpeg');
  const photoOf = (jo: Phone) =>
    jo.write('photo-taken', { photo: picture.hash, mediaType: 'image/jpeg' }, { sealed: [picture.hash] });

  it('may come after its entry, and any number of times', async () => {
    const here = await emptyWoods();
    expect(await supplySealed(here.log, picture)).toBe('not-named');
    expect(await take(here, [photoOf(phone())])).toMatchObject({ recorded: 1 });
    expect(await supplySealed(here.log, { ...picture, bytes: Uint8Array.of(1) })).toBe('changed');
    expect(await supplySealed(here.log, picture)).toBe('kept');
    expect(await supplySealed(here.log, picture)).toBe('already-kept');
  });

  it('does not come back once it was erased', async () => {
    const here = await emptyWoods();
    await take(here, [photoOf(phone())]);
    await here.record('personal-data-erased', { photo: picture.hash, reason: 'asked for' });
    expect(await supplySealed(here.log, picture)).toBe('erased');
    expect(await here.log.sealed(picture.hash)).toBeUndefined();
  });

  it('is the only thing that may come later: a name has to come with its entry', async () => {
    const here = await emptyWoods();
    const name = rowOf('Jo Sawyer');
    const line = phone().write(
      'person-named',
      { person: phone().device, name: name.hash },
      { sealed: [name.hash] },
    );
    expect(issuesOf((await take(here, [line])).receipts)).toEqual(['sealed']);
  });
});

it('a dry run of an outbox says of each line what would become of it, and keeps nothing', async () => {
  const here = await emptyWoods();
  const jo = phone();
  await pair(here, jo);
  const there = jo.write('note-written', { text: 'rain' });
  await take(here, [there]);
  const { id } = readEnvelope(there.bytes);
  const conflict = jo.write('note-written', { text: 'snow' }, { id });
  const fresh = jo.write('note-written', { text: 'wind' });
  const lines: ExchangeLine[] = [there, conflict, fresh, fresh, { bytes: jo.write('tag-lost', {}).bytes }];
  const size = await here.size();
  const foreseen = await take(here, lines, { dryRun: true });
  expect(foreseen.receipts.map(({ outcome }) => outcome)).toEqual([
    'already-recorded',
    'conflict',
    'recorded',
    'already-recorded',
    'unreadable',
  ]);
  expect(await here.size()).toBe(size);
  expect(await here.log.aside()).toEqual([]);
  expect((await take(here, lines)).receipts).toEqual(foreseen.receipts);
});

it('a public key of another length is refused with its field', () => {
  const reading = parseBody('device-paired', 1, {
    device: '01970000-0000-7000-8000-0000000000d1',
    label: "Ann's phone",
    publicKey: 'AAAA',
    person: '01970000-0000-7000-8000-0000000000aa',
  });
  expect(reading).toMatchObject({ ok: false, issues: [{ field: 'publicKey' }] });
});
