// Web pages elsewhere must neither read nor write the logbook: DNS rebinding, cross-site requests, framing, scripts.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createApp } from '../../src/server/index.ts';
import { type House, house, now } from './desk.ts';

let woods: House;
beforeAll(async () => {
  woods = await house();
});
afterAll(() => woods.end());

/** Asks as if the request had come in by port 4747. */
const ask = (path: string, init: RequestInit = {}) =>
  woods.app.request(path, init, {
    incoming: { socket: { localPort: 4747, remoteAddress: '127.0.0.1' } },
  });
const write = (headers: Record<string, string>) =>
  ask('/api/events', {
    method: 'POST',
    headers: { host: '127.0.0.1:4747', 'content-type': 'application/json', ...headers },
    body: JSON.stringify({ kind: 'note-written', fields: { text: 'written by a page' } }),
  });

describe('the name in Host', () => {
  it.each(['127.0.0.1:4747', 'localhost:4747', '[::1]:4747', 'LOCALHOST:4747'])(
    '%s is answered',
    async (host) => {
      expect((await ask('/api/head', { headers: { host } })).status).toBe(200);
    },
  );

  it.each([
    ['evil.example', 'another name that leads here'],
    ['evil.example:4747', 'with our port'],
    ['localhost.evil.example:4747', 'beginning like ours'],
    ['evil-localhost:4747', 'ending like ours'],
    ['127.0.0.1.evil.example:4747', 'beginning like our address'],
    ['127.0.0.1', 'port 80 is not ours'],
    ['127.0.0.1:80', 'neither when it is said'],
    ['localhost:9999', 'another port'],
    ['127.0.0.1:4747@evil.example', 'a name behind a user'],
    ['evil.example#127.0.0.1:4747', 'a name before a fragment'],
    ['192.168.1.10:4747', 'an address of the local net'],
    ['0.0.0.0:4747', 'every address'],
    ['127.0.0.1:4747/..', 'more than a name'],
    ['', 'nothing'],
  ])('%s is not: %s', async (host) => {
    for (const path of ['/api/head', '/', '/nothing', '/style.css']) {
      const answer = await ask(path, { headers: { host } });
      expect(answer.status).toBe(421);
      expect(((await answer.json()) as { code: string }).code).toBe('misdirected-request');
    }
  });
});

describe('writes', () => {
  it.each<[Record<string, string>, string]>([
    [{}, 'a program on this machine sends neither'],
    [{ origin: 'http://127.0.0.1:4747' }, 'our own page'],
    [{ origin: 'http://127.0.0.1:4747', 'sec-fetch-site': 'same-origin' }, 'our own page in a new browser'],
    [{ 'sec-fetch-site': 'none' }, 'somebody who typed it'],
  ])('with %j go in: %s', async (headers) => {
    expect((await write(headers)).status).toBe(201);
  });

  it.each<[Record<string, string>, string]>([
    [{ origin: 'http://evil.example' }, 'another site'],
    [{ origin: 'https://127.0.0.1:4747' }, 'another scheme'],
    [{ origin: 'http://127.0.0.1:8080' }, 'another port of this machine'],
    [{ origin: 'http://localhost:4747' }, 'another name of this machine than in Host'],
    [{ origin: 'null' }, 'a sandboxed frame or a file'],
    [{ origin: '' }, 'an empty one'],
    [{ 'sec-fetch-site': 'cross-site' }, 'a page that hides its origin'],
    [{ 'sec-fetch-site': 'same-site' }, 'another server on this machine'],
    [{ origin: 'http://127.0.0.1:4747', 'sec-fetch-site': 'cross-site' }, 'one that contradicts itself'],
  ])('with %j do not: %s', async (headers) => {
    const before = await woods.log.head();
    const answer = await write(headers);
    expect(answer.status).toBe(403);
    expect(((await answer.json()) as { code: string }).code).toBe('cross-site');
    expect(await woods.log.head()).toEqual(before);
  });
});

describe('what browsers are told', () => {
  it.each(['/', '/api/stand', '/style.css', '/nothing', '/reports/harvest', '/layers/stems.geojson'])(
    '%s',
    async (path) => {
      const { headers } = await ask(path, {
        headers: { host: '127.0.0.1:4747', origin: 'http://evil.example' },
      });
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).toContain("form-action 'self'");
      expect(policy).not.toMatch(/unsafe|\*|script-src/);
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
      expect(headers.get('x-frame-options')).toBe('DENY');
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
      expect([...headers.keys()].filter((name) => name.startsWith('access-control'))).toEqual([]);
      expect(headers.get('x-powered-by')).toBeNull();
    },
  );
});

describe('errors that nobody foresaw', () => {
  it('say nothing of the inside of the program, and are told to whoever runs it', async () => {
    const told: unknown[] = [];
    const log = { ...woods.log, head: () => Promise.reject(new TypeError('secret path /var/ann')) };
    const app = createApp({
      desk: { ...woods.desk, log },
      program: 'gapledger 0.1.0',
      now: () => now,
      logger: ({ error }) => told.push(error),
    });
    const answer = await app.request('/api/stand');
    expect(answer.status).toBe(500);
    const text = await answer.text();
    expect(text).not.toMatch(/secret|\/var|TypeError|at .*\.ts/);
    expect(JSON.parse(text)).toMatchObject({ code: 'internal' });
    expect(told).toEqual([expect.any(TypeError)]);
  });
});
