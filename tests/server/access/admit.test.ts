// Who may do what: a program on this machine, phones of each role, and everybody else.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  hashOfToken,
  newToken,
  oneTimeCodes,
  type Registry,
  type Role,
  registryOf,
  triesBy,
} from '../../../src/server/access/index.ts';
import { createApp } from '../../../src/server/index.ts';
import { type House, house } from '../desk.ts';

const host = '192.168.1.10:4748';
let woods: House;
let home: string;
let registry: Registry;
let app: ReturnType<typeof createApp>;
let time = Date.parse('2026-03-20T14:00:00Z');
const tokens = new Map<Role, string>();

beforeAll(async () => {
  woods = await house();
  home = mkdtempSync(join(tmpdir(), 'gapledger-admit-'));
  registry = registryOf(woods.path, woods.log.facts().logbook ?? '', home);
  for (const role of ['reader', 'recorder', 'keeper'] as const) pair(role, role);
  app = createApp({
    desk: woods.desk,
    program: 'gapledger 0.1.0',
    now: () => time,
    access: {
      registry,
      codes: oneTimeCodes(() => time),
      wrongTokens: triesBy(5, 600),
      wrongCodes: triesBy(5, 600),
    },
    names: () => new Set(['192.168.1.10', 'desk.local']),
  });
  // Routes of other parts, so that the rules can be seen without them.
  app.get('/api/who', (context) => context.json(context.var.caller));
});
afterAll(async () => {
  await woods.end();
  rmSync(home, { recursive: true });
});

function pair(device: string, role: Role): string {
  const token = newToken();
  tokens.set(role, token);
  const pairedAt = new Date(time).toISOString();
  registry.add({ device, label: `${device}'s phone`, role, tokenHash: hashOfToken(token), pairedAt });
  return token;
}

type Asked = {
  method?: string;
  token?: string;
  from?: string;
  tls?: boolean;
  headers?: Record<string, string>;
};
const ask = (
  path: string,
  { method = 'GET', token, from = '192.168.1.77', tls = true, headers }: Asked = {},
) =>
  app.request(
    path,
    {
      method,
      headers: {
        host: from === '127.0.0.1' ? '127.0.0.1:4748' : host,
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        ...headers,
      },
    },
    { incoming: { socket: { localPort: 4748, remoteAddress: from, encrypted: tls } } },
  );
const codeOf = async (answer: Response) => ((await answer.json()) as { code: string }).code;
const as = (role: Role) => ({ token: tokens.get(role) ?? '' });

describe('a program on this machine', () => {
  it.each(['127.0.0.1', '127.0.1.1', '::1', '::ffff:127.0.0.1'])('at %s is its keeper', async (from) => {
    const answer = await ask('/api/who', { from, headers: { host: 'localhost:4748' } });
    expect(await answer.json()).toEqual({ role: 'keeper' });
  });

  it('that shows a token is that device, and nobody with a wrong one', async () => {
    const shown = await ask('/api/who', { from: '127.0.0.1', ...as('reader') });
    expect(await shown.json()).toEqual({ role: 'reader', device: 'reader' });
    const wrong = await ask('/api/who', { from: '127.0.0.1', token: newToken() });
    expect(wrong.status).toBe(401);
  });
});

describe('a proxy or a tunnel on this machine', () => {
  it.each([
    { via: '1.1 caddy' },
    { forwarded: 'for=192.168.1.77' },
    { 'x-forwarded-for': '192.168.1.77' },
    { 'x-real-ip': '127.0.0.1' },
  ])('that says %j is no keeper: it asks for somebody elsewhere', async (headers) => {
    const passedOn = { from: '127.0.0.1', headers: { host: 'localhost:4748', ...headers } };
    expect((await ask('/api/who', passedOn)).status).toBe(401);
    expect(await codeOf(await ask('/api/who', { ...passedOn, tls: false }))).toBe('needs-https');
    const known = await ask('/api/who', { ...passedOn, ...as('reader') });
    expect(await known.json()).toEqual({ role: 'reader', device: 'reader' });
  });
});

describe('the page of a felling plan', () => {
  it('is read by every paired device, and adopted from by a keeper only', async () => {
    const form = { method: 'POST', headers: { 'content-type': 'application/x-www-form-urlencoded' } };
    for (const role of ['reader', 'recorder', 'keeper'] as const) {
      const page = await ask('/groups/G1/plan', as(role));
      expect(page.status).toBe(200);
      const sent = await ask('/groups/G1/plan', { ...form, ...as(role) });
      // The form of nobody names no plan that could be shown.
      expect(sent.status, role).toBe(role === 'keeper' ? 409 : 403);
    }
    expect((await ask('/groups/G1/plan', form)).status).toBe(401);
  });
});

describe('another machine without a token', () => {
  it.each(['192.168.1.77', '10.0.0.5', 'fd00::2', '128.0.0.1', '::ffff:192.168.1.77', '::2', ''])(
    'at %s is refused, with what to do',
    async (from) => {
      for (const path of [
        '/api/stand',
        '/api/head',
        '/layers',
        '/reports/harvest',
        '/groups/G1/plan',
        '/api/groups/G1/plan/map',
        '/nothing',
        '/style.css',
      ]) {
        const answer = await ask(path, { from });
        expect(answer.status).toBe(401);
        expect(answer.headers.get('www-authenticate')).toBe('Bearer');
        const { code, detail } = (await answer.json()) as { code: string; detail: string };
        expect(code).toBe('not-paired');
        expect(detail).toContain('gapledger serve --lan');
      }
    },
  );

  it.each([
    'Bearer',
    'Bearer ',
    'Basic YTpi',
    'Bearer a b',
    'bearer ?',
    'Token x',
    `Bearer ${'x'.repeat(5000)}`,
  ])('is refused with "%.20s"', async (authorization) => {
    const answer = await ask('/api/stand', {
      from: `10.1.${authorization.length % 250}.9`,
      headers: { authorization },
    });
    expect(answer.status).toBe(401);
  });

  it('gets what holds nothing of the logbook', async () => {
    for (const path of ['/field/', '/field/nothing.js', '/trust/', '/trust/nothing'])
      expect([200, 404]).toContain((await ask(path)).status);
    for (const path of ['/fields', '/fieldx/', '/trusted', '/FIELD/', '//field/', '/api/../field'])
      expect((await ask(path)).status).not.toBe(200);
  });
});

describe('a paired device', () => {
  const rows: [method: string, path: string, least: Role][] = [
    ['GET', '/api/stand', 'reader'],
    ['HEAD', '/api/head', 'reader'],
    ['GET', '/reports/harvest', 'reader'],
    ['GET', '/api/exchange', 'reader'],
    ['POST', '/api/exchange', 'recorder'],
    ['PUT', `/api/sealed/${'0'.repeat(64)}`, 'recorder'],
    ['POST', '/api/events', 'keeper'],
    ['DELETE', '/api/events', 'keeper'],
    ['PUT', '/api/anything', 'keeper'],
    ['POST', '/api/exchange/more', 'keeper'],
    ['OPTIONS', '/api/stand', 'keeper'],
  ];
  const order: readonly Role[] = ['reader', 'recorder', 'keeper'];
  const cases = rows.flatMap(([method, path, least]) =>
    order.map((role) => ({ method, path, role, may: order.indexOf(role) >= order.indexOf(least) })),
  );
  it.each(cases)('as $role: $method $path, allowed: $may', async ({ method, path, role, may }) => {
    const answer = await ask(path, { method, ...as(role) });
    const body = await answer.text();
    const code = body.startsWith('{') ? (JSON.parse(body) as { code?: string }).code : undefined;
    if (may) expect(['not-paired', 'role-too-low']).not.toContain(code);
    else {
      expect(answer.status).toBe(403);
      expect(JSON.parse(body)).toMatchObject({ code: 'role-too-low', role });
    }
  });

  it('is refused once it is revoked, also by another process while the server runs', async () => {
    const token = pair('lost', 'recorder');
    expect((await ask('/api/stand', { token })).status).toBe(200);
    registryOf(woods.path, woods.log.facts().logbook ?? '', home).revoke('lost', '2026-03-20T15:00:00Z');
    const answer = await ask('/api/stand', { token, from: '192.168.1.99' });
    expect(answer.status).toBe(401);
    expect(await answer.text()).toContain('was revoked');
    pair('recorder', 'recorder');
  });

  it('is noted when it was here, once a minute', async () => {
    const seen = () => registry.all().find(({ device }) => device === 'reader')?.lastSeenAt;
    time += 3_600_000;
    await ask('/api/head', as('reader'));
    const first = seen();
    expect(first).toBe(new Date(time).toISOString());
    time += 59_000;
    await ask('/api/head', as('reader'));
    expect(seen()).toBe(first);
    time += 1_000;
    await ask('/api/head', as('reader'));
    expect(seen()).toBe(new Date(time).toISOString());
  });
});

describe('plain HTTP from another machine', () => {
  it('gives nothing of the logbook, even to a paired device, and says where to go', async () => {
    for (const [method, path] of [
      ['GET', '/api/stand'],
      ['POST', '/api/pairing'],
      ['POST', '/api/exchange'],
      ['POST', '/field/'],
      ['PUT', '/trust/'],
    ] as const) {
      const answer = await ask(path, { method, tls: false, ...as('keeper') });
      expect(answer.status).toBe(403);
      expect(await codeOf(answer)).toBe('needs-https');
    }
  });
});

describe('guessing tokens', () => {
  it('is answered with 429 and a time to wait, for that address only; a right token is never held up', async () => {
    const guess = (from: string) => ask('/api/stand', { from, token: newToken() });
    for (let count = 0; count < 4; count += 1) expect((await guess('192.168.1.66')).status).toBe(401);
    const answer = await guess('192.168.1.66');
    expect(answer.status).toBe(429);
    expect(await codeOf(answer)).toBe('too-many-tries');
    const wait = Number(answer.headers.get('retry-after'));
    expect(wait).toBeGreaterThan(0);
    expect(wait).toBeLessThanOrEqual(600);
    expect((await guess('192.168.1.67')).status).toBe(401);
    expect((await ask('/api/stand', { from: '192.168.1.66', ...as('reader') })).status).toBe(200);
  });

  it('counts all addresses of an IPv6 /64 as one, and both ways to write an IPv4 address', async () => {
    for (let count = 1; count < 5; count += 1)
      await ask('/api/stand', { from: `fd12:3456:789a:1::${count}`, token: newToken() });
    expect((await ask('/api/stand', { from: 'fd12:3456:789a:1:a:b:c:d', token: newToken() })).status).toBe(
      429,
    );
    expect((await ask('/api/stand', { from: 'fd12:3456:789a:2::1', token: newToken() })).status).toBe(401);
    for (let count = 1; count < 5; count += 1)
      await ask('/api/stand', { from: '10.9.9.9', token: newToken() });
    expect((await ask('/api/stand', { from: '::ffff:10.9.9.9', token: newToken() })).status).toBe(429);
  });
});
