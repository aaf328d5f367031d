// What phones exchange with the logbook over HTTP: entries up, entries down, photos one by one.
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import {
  type ExchangeLine,
  exchangeJson,
  readExchangeJson,
  readExchangeLine,
  toBase64,
} from '../../src/log/entry/index.ts';
import { type Served, serve } from '../../src/server/index.ts';
import { markOf, type Phone, phone, rowOf } from '../record/phone.ts';
import { type OpenHouse, openHouse } from './phone.ts';

let woods: OpenHouse;
let served: Served | undefined;
beforeEach(async () => {
  woods = await openHouse();
});
afterEach(async () => {
  await served?.close();
  served = undefined;
  await woods.end();
});

type Receipt = { line: number; outcome: string; position?: number; issue?: { field: string } };
type Answer = {
  receipts: Receipt[];
  serverTime: string;
  head: { size: number; text: string };
  logbook: string;
  lastSeq: number;
  program: string;
  code?: string;
  problems?: { field: string }[];
};
type Page = { size: number; lines: unknown[]; next: number | null };

/** A phone that is paired, as somebody who may record, and asks from the local net. */
async function paired(role: 'recorder' | 'reader' | 'keeper' = 'recorder', jo: Phone = phone()) {
  const answer = await woods.pair({
    device: jo.device,
    publicKey: jo.publicKey,
    code: woods.codes.make(role).code,
  });
  const { token } = (await answer.json()) as { token: string };
  const ask = (path: string, init: RequestInit = {}) =>
    woods.from('192.168.1.77', path, {
      ...init,
      headers: { ...(init.headers as Record<string, string>), authorization: `Bearer ${token}` },
    });
  const put = (hash: string, body: unknown) =>
    ask(`/api/sealed/${hash}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  const post = async (lines: readonly (ExchangeLine | JsonObject)[], more: Record<string, unknown> = {}) => {
    const response = await ask('/api/exchange', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        deviceTime: '2026-03-20T14:00:00.123Z',
        device: jo.device,
        lines: lines.map((line) => ('bytes' in line ? exchangeJson(line as ExchangeLine) : line)),
        ...more,
      }),
    });
    return { status: response.status, body: (await response.json()) as Answer };
  };
  return { jo, ask, post, put };
}

const size = async () => (await woods.log.head()).size;
const fieldsOf = ({ receipts }: Answer) => receipts.map(({ outcome, issue }) => issue?.field ?? outcome);

describe('POST /api/exchange', () => {
  it('records signed entries and says where they are; again, it changes nothing', async () => {
    const { jo, post } = await paired();
    const before = await size();
    const lines = [jo.write('stem-marked', markOf('P1')), jo.write('note-written', { text: 'rain' })];
    const first = await post(lines);
    expect(first.status).toBe(200);
    expect(first.body).toMatchObject({
      receipts: [
        { line: 1, outcome: 'recorded', position: before },
        { line: 2, outcome: 'recorded', position: before + 1 },
      ],
      head: { size: before + 2 },
      logbook: woods.log.facts().logbook,
      lastSeq: 2,
      program: 'gapledger 0.1.0',
    });
    expect(first.body.serverTime).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/);
    const again = await post(lines);
    expect(again.body.receipts.map(({ outcome, position }) => [outcome, position])).toEqual([
      ['already-recorded', before],
      ['already-recorded', before + 1],
    ]);
    expect(await size()).toBe(before + 2);
  });

  it('without lines is a question how things stand', async () => {
    const { post } = await paired();
    expect((await post([])).body).toMatchObject({ receipts: [], lastSeq: 0, head: { size: await size() } });
  });

  it('keeps aside what it cannot take, each with its reason, and takes the rest', async () => {
    const { jo, post } = await paired();
    const unsigned = { bytes: jo.write('note-written', { text: 'not signed' }).bytes };
    const good = jo.write('note-written', { text: 'rain' });
    const revoking = jo.write('device-revoked', { device: jo.device, reason: 'no' });
    const { body } = await post([unsigned, { entry: 5 }, { twig: 1 }, revoking, good]);
    expect(fieldsOf(body)).toEqual(['signature', 'entry', 'twig', 'type', 'recorded']);
    expect(await woods.log.aside()).toHaveLength(4);
  });

  it('takes a phone of somebody who may only record for itself alone', async () => {
    const { jo, post } = await paired();
    const other = phone();
    const before = await size();
    const foreign = await post([
      jo.write('note-written', { text: 'a' }),
      other.write('note-written', { text: 'b' }),
    ]);
    expect([foreign.status, foreign.body.code]).toEqual([403, 'foreign-device']);
    const posing = await post([], { device: other.device });
    expect([posing.status, posing.body.code]).toEqual([403, 'foreign-device']);
    expect(await size()).toBe(before);
    const keeper = await paired('keeper');
    expect(
      (await keeper.post([other.write('note-written', { text: 'carried' })])).body.receipts,
    ).toMatchObject([{ outcome: 'recorded' }]);
  });

  it('is not for readers, nor for anybody without a token', async () => {
    const { jo, post } = await paired('reader');
    const refused = await post([jo.write('note-written', { text: 'a' })]);
    expect([refused.status, refused.body.code]).toEqual([403, 'role-too-low']);
    const stranger = await woods.from('192.168.1.78', '/api/exchange', { method: 'POST', body: '{}' });
    expect(stranger.status).toBe(401);
  });

  it.each([
    ['deviceTime', { deviceTime: 'noon' }],
    ['device', { device: 'my phone' }],
    ['lines', { lines: {} }],
    ['lines', { lines: Array.from({ length: 1001 }, () => 0) }],
    ['exchange', { colour: 'blue' }],
  ])('names %s when it is not as it should be: %#', async (field, more) => {
    const { post } = await paired();
    const { status, body } = await post([], more);
    expect([status, body.code]).toEqual([400, 'malformed-body']);
    expect(body.problems?.map((problem) => problem.field)).toEqual([field]);
  });
});

describe('GET /api/exchange', () => {
  it('gives all entries page by page, byte for byte, with receipts, signatures and names', async () => {
    const { jo, post, ask } = await paired();
    const name = rowOf('Dell Pruitt');
    const named = jo.write('person-named', { person: jo.device, name: name.hash }, { sealed: [name.hash] });
    await post([{ ...named, sealed: [name] }]);
    const lines: ExchangeLine[] = [];
    for (let from: number | null = 0; from !== null; ) {
      const page = (await (await ask(`/api/exchange?from=${from}&limit=7`)).json()) as Page;
      for (const line of page.lines) {
        const reading = readExchangeJson(line);
        if (reading.ok) lines.push(reading.line);
      }
      from = page.next;
    }
    expect(lines.map(({ receipt }) => receipt?.position)).toEqual(
      Array.from({ length: await size() }, (_, position) => position),
    );
    for (const { bytes, receipt } of lines) {
      const stored = await woods.log.at(receipt?.position ?? -1);
      expect(Buffer.compare(stored?.bytes ?? Buffer.of(), bytes)).toBe(0);
      expect(receipt?.receivedAt).toBe(stored?.receivedAt);
    }
    const last = lines.at(-1);
    expect(last?.signature).toEqual(named.signature);
    expect(last?.sealed?.map(({ bytes }) => Buffer.from(bytes).toString())).toEqual(['Dell Pruitt']);
  });

  it('gives lines alone when they are asked for, and the way to the next page beside them', async () => {
    const { ask } = await paired('reader');
    const answer = await ask('/api/exchange?limit=2', { headers: { accept: 'application/x-ndjson' } });
    expect(answer.headers.get('content-type')).toBe('application/x-ndjson');
    expect(answer.headers.get('link')).toBe('</api/exchange?from=2&limit=2>; rel="next"');
    const lines = (await answer.text()).split('\n').slice(0, -1);
    expect(lines.map((line) => readExchangeLine(line).ok)).toEqual([true, true]);
  });

  it('has nothing new for who has read up to the head', async () => {
    const { ask } = await paired('reader');
    const first = await ask(`/api/exchange?from=${await size()}`);
    expect(await first.clone().json()).toMatchObject({ lines: [], next: null });
    const etag = first.headers.get('etag') ?? '';
    const again = await ask(`/api/exchange?from=${await size()}`, { headers: { 'if-none-match': etag } });
    expect(again.status).toBe(304);
  });
});

describe('/api/sealed', () => {
  const picture = rowOf(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0x00), 'image/jpeg');
  const body = { salt: toBase64(picture.salt), bytes: toBase64(picture.bytes), mediaType: 'image/jpeg' };
  const photoOf = (jo: Phone) =>
    jo.write('photo-taken', { photo: picture.hash, mediaType: 'image/jpeg' }, { sealed: [picture.hash] });

  it('takes a photo after its entry, any number of times, and shows it', async () => {
    const { jo, post, put, ask } = await paired();
    const early = await put(picture.hash, body);
    expect([early.status, ((await early.json()) as Answer).code]).toEqual([404, 'row-not-named']);
    expect((await post([photoOf(jo)])).body.receipts).toMatchObject([{ outcome: 'recorded' }]);
    const waiting = await ask(`/api/sealed/${picture.hash}`);
    expect([waiting.status, ((await waiting.json()) as Answer).code]).toEqual([404, 'row-not-here']);
    expect(await (await put(picture.hash, body)).json()).toEqual({ outcome: 'kept' });
    expect(await (await put(picture.hash, body)).json()).toEqual({ outcome: 'already-kept' });
    const shown = await ask(`/api/sealed/${picture.hash}`);
    expect(shown.headers.get('content-type')).toBe('image/jpeg');
    expect(shown.headers.get('x-content-type-options')).toBe('nosniff');
    expect(shown.headers.get('cache-control')).toBe('no-store');
    expect(new Uint8Array(await shown.arrayBuffer())).toEqual(picture.bytes);
  });

  it('refuses bytes that are not those that the entry names, and keeps nothing of them', async () => {
    const { jo, post, put } = await paired();
    await post([photoOf(jo)]);
    const changed = await put(picture.hash, { ...body, bytes: toBase64(Uint8Array.of(1, 2, 3)) });
    expect([changed.status, ((await changed.json()) as Answer).code]).toEqual([422, 'row-changed']);
    for (const wrong of [{ ...body, salt: 'Zg' }, { bytes: body.bytes }, { ...body, twig: 1 }])
      expect((await put(picture.hash, wrong)).status).toBe(400);
    expect((await put('nothing', body)).status).toBe(400);
    expect(await woods.log.sealed(picture.hash)).toBeUndefined();
  });

  it('does not bring back what was erased', async () => {
    const { jo, post, put, ask } = await paired();
    await post([photoOf(jo)]);
    await put(picture.hash, body);
    await woods.record('personal-data-erased', { photo: picture.hash, reason: 'asked for' });
    expect(await (await put(picture.hash, body)).json()).toEqual({ outcome: 'erased' });
    const gone = await ask(`/api/sealed/${picture.hash}`);
    expect(gone.status).toBe(404);
    expect(((await gone.json()) as { detail: string }).detail).toContain('was erased');
  });

  it('shows nothing in a browser that could run there', async () => {
    const { jo, post, ask } = await paired();
    const drawing = rowOf('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>', 'image/svg+xml');
    const line = jo.write(
      'photo-taken',
      { photo: drawing.hash, mediaType: 'image/svg+xml' },
      { sealed: [drawing.hash] },
    );
    await post([{ ...line, sealed: [drawing] }]);
    const answer = await ask(`/api/sealed/${drawing.hash}`);
    expect(answer.headers.get('content-type')).toBe('application/octet-stream');
    expect(answer.headers.get('content-disposition')).toBe('attachment');
  });

  it('is not for readers to write', async () => {
    const { put } = await paired('reader');
    expect((await put(picture.hash, body)).status).toBe(403);
  });
});

it('works over the wire, and the desk itself may hand in what other phones wrote', async () => {
  served = await serve({ app: woods.app, port: 0 });
  const url = new URL('/api/exchange', served.url);
  const line = phone().write('note-written', { text: 'carried on a stick' });
  const sent = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      deviceTime: '2026-03-20T14:00:00Z',
      device: phone().device,
      lines: [exchangeJson(line)],
    }),
  });
  expect(await sent.json()).toMatchObject({ receipts: [{ line: 1, outcome: 'recorded' }] });
  const page = (await (await fetch(new URL('?limit=1000', url))).json()) as Page;
  expect(page.lines.at(-1)).toMatchObject({
    entry: new TextDecoder().decode(line.bytes),
    signature: line.signature,
  });
});
