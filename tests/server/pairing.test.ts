// Pairing: a code from the screen becomes a token, a person and an entry; and every way to get it wrong.
import { generateKeyPairSync, randomUUID } from 'node:crypto';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { readStand } from '../../src/record/index.ts';
import { type OpenHouse, openHouse } from './phone.ts';

const ends: (() => Promise<void>)[] = [];
let woods: OpenHouse;
beforeEach(async () => {
  woods = await openHouse();
  ends.push(woods.end);
});
afterAll(async () => {
  for (const end of ends) await end();
});

type Paired = { token: string; role: string; logbook: string; person: string; serverTime: string };
const bodyOf = async (answer: Response) => (await answer.json()) as Paired;
const stand = async () => (await readStand(woods.log, {})).stand;
/** The 32 raw bytes at the end of the SPKI form (RFC 8410). */
const rawKey = () =>
  generateKeyPairSync('ed25519')
    .publicKey.export({ type: 'spki', format: 'der' })
    .subarray(-32)
    .toString('base64');
async function refusal(answer: Response, status: number, code: string): Promise<Record<string, unknown>> {
  expect(answer.status).toBe(status);
  const body = (await answer.json()) as Record<string, unknown>;
  expect(body.code).toBe(code);
  return body;
}

describe('a phone that shows the code', () => {
  it('gets a token for the role of the code, and is recorded with its key and its person', async () => {
    const [device, publicKey] = [randomUUID(), rawKey()];
    const answer = await woods.pair({ device, publicKey });
    expect(answer.status).toBe(201);
    expect(answer.headers.get('cache-control')).toBe('no-store');
    const { token, role, logbook, person } = await bodyOf(answer);
    expect(role).toBe('recorder');
    expect(logbook).toBe(woods.log.facts().logbook);
    const { devices, people } = await stand();
    expect(devices.get(device)).toMatchObject({ label: "Ann's phone", publicKey, person });
    // Ann was in the logbook already: nobody is named twice.
    expect([...people.keys()]).toEqual([person]);
    expect(woods.paired).toMatchObject([{ device, role: 'recorder' }]);
    const asked = await woods.from('192.168.1.77', '/api/head', {
      headers: { authorization: `Bearer ${token}` },
    });
    expect(asked.status).toBe(200);
  });

  it('names somebody new to the logbook, whose name can be erased like any other', async () => {
    const { person } = await bodyOf(await woods.pair({ personName: 'Dell Pruitt' }));
    const { people, devices } = await stand();
    expect(people.size).toBe(2);
    const sealed = await woods.log.sealed(people.get(person)?.name ?? '');
    expect(new TextDecoder().decode(sealed?.bytes)).toBe('Dell Pruitt');
    expect([...devices.values()].map((device) => device.person)).toEqual([person]);
  });

  it('can name its person by id', async () => {
    const [ann = ''] = (await stand()).people.keys();
    const answer = await woods.pair({ personName: undefined, person: ann });
    expect((await bodyOf(answer)).person).toBe(ann);
  });

  it('is recorded by the desk, not by itself', async () => {
    await woods.pair();
    const last = await woods.log.at((await woods.log.head()).size - 1);
    expect(JSON.parse(new TextDecoder().decode(last?.bytes))).toMatchObject({
      type: 'device-paired',
      device: woods.desk.device,
    });
  });

  it('can be paired again, by itself only, and then its earlier token counts no more', async () => {
    const [device, publicKey] = [randomUUID(), rawKey()];
    const first = await bodyOf(await woods.pair({ device, publicKey }));
    const second = await bodyOf(await woods.pair({ device, publicKey }));
    const ask = async (token: string) =>
      (await woods.from('192.168.1.77', '/api/head', { headers: { authorization: `Bearer ${token}` } }))
        .status;
    expect([await ask(first.token), await ask(second.token)]).toEqual([401, 200]);
    await refusal(await woods.pair({ device, publicKey: rawKey() }), 403, 'pairing-refused');
    await refusal(await woods.pair({ device, publicKey: undefined }), 403, 'pairing-refused');
    await refusal(await woods.pair({ device: woods.desk.device }), 403, 'pairing-refused');
    expect(await ask(second.token)).toBe(200);
  });
});

describe('a code that does not count', () => {
  it('pairs nobody and records nothing', async () => {
    const before = await woods.log.head();
    expect(await refusal(await woods.pair({ code: 'ABC-DEF-GHJ' }), 403, 'pairing-refused')).toMatchObject({
      why: 'no-code',
    });
    woods.codes.make('recorder');
    expect(await refusal(await woods.pair({ code: '000-000-000' }), 403, 'pairing-refused')).toMatchObject({
      why: 'wrong',
    });
    expect(await woods.log.head()).toEqual(before);
    expect(woods.registry.all()).toEqual([]);
  });

  it('counts once, also for two phones at the same moment', async () => {
    const { code } = woods.codes.make('recorder');
    const answers = await Promise.all([woods.pair({ code }), woods.pair({ code }, '192.168.1.78')]);
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([201, 403]));
    expect(woods.registry.all()).toHaveLength(1);
  });

  it('makes an address wait after five of them (RFC 6585), and others not', async () => {
    woods.codes.make('recorder');
    for (let count = 0; count < 4; count += 1)
      await refusal(await woods.pair({ code: 'wrong' }, '192.168.1.66'), 403, 'pairing-refused');
    const answer = await woods.pair({ code: 'wrong' }, '192.168.1.66');
    expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
    await refusal(answer, 429, 'too-many-tries');
    // Even with the right code it has to wait: that code is not used up by it.
    const { code } = woods.codes.make('recorder');
    await refusal(await woods.pair({ code }, '192.168.1.66'), 429, 'too-many-tries');
    expect((await woods.pair({ code }, '192.168.1.67')).status).toBe(201);
  });
});

describe('without a code', () => {
  const send = (ask: (init: RequestInit) => Promise<Response>, headers: Record<string, string> = {}) =>
    ask({
      method: 'POST',
      headers: { 'content-type': 'application/json', ...headers },
      body: JSON.stringify({ device: randomUUID(), label: 'browser at the desk', personName: 'Ann Weaver' }),
    });
  const here = (init: RequestInit) => woods.ask('http://localhost/api/pairing', init);

  it('a browser of the computer itself is paired as a recorder, like any other device', async () => {
    const answer = await send(here, { origin: 'http://localhost', 'sec-fetch-site': 'same-origin' });
    expect(answer.status).toBe(201);
    const { token, role } = await bodyOf(answer);
    expect(role).toBe('recorder');
    expect(woods.registry.byToken(token)).toMatchObject({ label: 'browser at the desk' });
    expect((await stand()).devices.size).toBe(1);
  });

  it('nobody else is: not from the net, not with a token, not a page of another site', async () => {
    const away = (init: RequestInit) => woods.from('192.168.1.77', '/api/pairing', init);
    expect(await refusal(await send(away), 403, 'pairing-refused')).toMatchObject({ why: 'missing' });
    const { code } = woods.codes.make('keeper');
    const { token } = await bodyOf(await woods.pair({ code }));
    const known = { authorization: `Bearer ${token}` };
    for (const ask of [away, here]) await refusal(await send(ask, known), 403, 'pairing-refused');
    await refusal(await send(here, { origin: 'https://evil.example' }), 403, 'cross-site');
    expect(woods.registry.all()).toHaveLength(1);
  });
});

describe('a pairing that cannot be recorded', () => {
  it.each([
    [{ label: '' }, 'malformed-body', 'label'],
    [{ device: 'my phone' }, 'malformed-body', 'device'],
    [{ more: 1 }, 'malformed-body', 'pairing'],
    [{ code: 7 }, 'malformed-body', 'code'],
    [{ publicKey: 'AAAA' }, 'bad-draft', 'publicKey'],
    [{ personName: undefined }, 'bad-draft', 'personName'],
    [{ person: '01970000-0000-7000-8000-00000000ffff' }, 'bad-draft', 'person'],
  ] as const)('with %j says what is wrong, and the code still counts', async (wrong, code, field) => {
    const made = woods.codes.make('recorder');
    const before = await woods.log.head();
    const answer = await woods.pair({ code: made.code, ...wrong });
    const body = await refusal(answer, code === 'bad-draft' ? 422 : 400, code);
    expect((body.problems as { field: string }[])[0]?.field).toBe(field);
    expect(await woods.log.head()).toEqual(before);
    expect((await woods.pair({ code: made.code })).status).toBe(201);
  });

  it('is not taken as a form or as plain text, which a page elsewhere could send', async () => {
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', ''])
      await refusal(
        await woods.from('192.168.1.77', '/api/pairing', {
          method: 'POST',
          headers: { 'content-type': type },
          body: '{}',
        }),
        415,
        'unsupported-media-type',
      );
  });

  it('is not taken from a page of another origin, or over plain HTTP', async () => {
    const { code } = woods.codes.make('recorder');
    const send = (more: { tls?: boolean; headers?: Record<string, string> }) =>
      woods.from('192.168.1.77', '/api/pairing', {
        method: 'POST',
        body: JSON.stringify({ code, device: randomUUID(), label: 'x', personName: 'x' }),
        ...more,
        headers: { 'content-type': 'application/json', ...more.headers },
      });
    await refusal(await send({ headers: { origin: 'http://192.168.1.10:4748' } }), 403, 'cross-site');
    await refusal(await send({ headers: { origin: 'https://evil.example' } }), 403, 'cross-site');
    await refusal(await send({ tls: false }), 403, 'needs-https');
    expect((await send({ headers: { origin: 'https://192.168.1.10:4748' } })).status).toBe(201);
  });
});
