// The built field page over HTTP: types, policies, what may be kept, and that nothing else of the disk comes along.
import { writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve } from '../../src/server/index.ts';
import { type House, house } from './desk.ts';
import { type OpenHouse, openHouse } from './phone.ts';

let woods: OpenHouse;
let bare: House;
beforeAll(async () => {
  woods = await openHouse();
  bare = await house();
  writeFileSync(join(woods.home, 'secret.json'), '{"token":"secret"}');
});
afterAll(async () => {
  await woods.end();
  await bare.end();
});
const ask = (path: string, init?: RequestInit) => woods.from('192.168.1.77', path, init);

describe('the files of the field page', () => {
  it.each([
    ['/field/', 'text/html'],
    ['/field/index.html', 'text/html'],
    ['/field/sw.js', 'text/javascript'],
    ['/field/assets/main-Ab3dE_9x.js', 'text/javascript'],
    ['/field/assets/look-12345678.css', 'text/css'],
    ['/field/version.json', 'application/json'],
    ['/field/manifest.webmanifest', 'application/manifest+json'],
    ['/field/icon.svg', 'image/svg+xml'],
  ])('%s comes as %s, without a token, over HTTPS and HTTP', async (path, type) => {
    for (const tls of [true, false]) {
      const answer = await woods.from('192.168.1.77', path, { tls });
      expect(answer.status).toBe(200);
      expect(answer.headers.get('content-type')).toContain(type);
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
    }
  });

  it('are asked for again each time, except those whose name changes with their content', async () => {
    const kept = async (path: string) => (await ask(path)).headers.get('cache-control');
    for (const path of [
      '/field/',
      '/field/index.html',
      '/field/sw.js',
      '/field/version.json',
      '/field/icon.svg',
    ])
      expect(await kept(path)).toBe('no-cache');
    for (const path of ['/field/assets/main-Ab3dE_9x.js', '/field/assets/look-12345678.css'])
      expect(await kept(path)).toBe('public, max-age=31536000, immutable');
    expect(await kept('/field/assets/nothing-12345678.js')).toBe('no-store');
  });

  it('may run their own scripts, ask this server, and use place and camera; nothing from elsewhere', async () => {
    const { headers } = await ask('/field/');
    const policy = (headers.get('content-security-policy') ?? '').split('; ');
    expect(policy).toEqual(
      expect.arrayContaining([
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "connect-src 'self'",
        "img-src 'self' blob: data:",
        "worker-src 'self'",
        "manifest-src 'self'",
        "frame-ancestors 'none'",
      ]),
    );
    expect(policy.join()).not.toMatch(/unsafe|\*|http/);
    expect(headers.get('permissions-policy')).toBe('camera=(self), geolocation=(self), microphone=()');
    const elsewhere = await ask('/trust/');
    expect(elsewhere.headers.get('permissions-policy')).toBe('camera=(), geolocation=(), microphone=()');
  });

  it('are named by the folder, with the slash that relative addresses need', async () => {
    const answer = await ask('/field');
    expect(answer.status).toBe(308);
    expect(answer.headers.get('location')).toBe('/field/');
    const head = await ask('/field/sw.js', { method: 'HEAD' });
    expect([head.status, await head.text()]).toEqual([200, '']);
    expect((await ask('/field/sw.js', { method: 'POST' })).status).not.toBe(200);
  });

  it('that are not there give a clear 404', async () => {
    const answer = await ask('/field/nothing.js');
    expect(answer.status).toBe(404);
    expect(answer.headers.get('content-type')).toBe('application/problem+json');
    const unbuilt = await bare.ask('/field/');
    expect(unbuilt.status).toBe(404);
    expect(await unbuilt.text()).toContain('npm run build');
  });
});

describe('nothing else of the disk', () => {
  it('comes along, whatever the path says', async () => {
    const served = await serve({ app: woods.app, port: 0 });
    const raw = (path: string) =>
      new Promise<{ status: number; body: string }>((resolve, reject) => {
        const { port } = served;
        request({ host: '127.0.0.1', port, path }, (answer) => {
          let body = '';
          answer.setEncoding('utf8');
          answer.on('data', (part: string) => (body += part));
          answer.on('end', () => resolve({ status: answer.statusCode ?? 0, body }));
        })
          .on('error', reject)
          .end();
      });
    for (const path of [
      '/field/../secret.json',
      '/field/%2e%2e/secret.json',
      '/field/..%2fsecret.json',
      '/field/%2e%2e%2fsecret.json',
      '/field/..\\secret.json',
      '/field/..%5csecret.json',
      '/field/%252e%252e%252fsecret.json',
      '/field/assets/../../secret.json',
      '/field//secret.json',
      '/field/./../secret.json',
      `/field/${join(woods.home, 'secret.json')}`,
      '/field/%00secret.json',
      '/field/assets',
      '/field/assets/',
      '/field/..',
    ]) {
      const { status, body } = await raw(path);
      expect(body, path).not.toContain('secret"');
      expect(body, path).not.toContain('"token"');
      expect([200, 400, 404], path).toContain(status);
    }
    await served.close();
  });
});
