// Another machine's way in, over real sockets: TLS that a client verifies, a browser that trusts the authority, and
// one that does not. Where this machine has an address in a net, that is the way; a server cannot tell the difference.
import { execFile, execFileSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { request as plainRequest } from 'node:http';
import { request as secureRequest } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkServerIdentity, type PeerCertificate } from 'node:tls';
import { promisify } from 'node:util';
import { chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Served, serve } from '../../src/server/index.ts';
import { namesOfMachine, type Vouching, vouch } from '../../src/server/trust/index.ts';
import { needs, programOnPath } from '../needs.ts';
import { type OpenHouse, openHouse } from './phone.ts';

const [address] = namesOfMachine().addresses;
let home: string;
let woods: OpenHouse;
let vouching: Vouching;
let plain: Served;
let secure: Served;
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'gapledger-lan-'));
  vouching = await vouch({ now: Date.now, home });
  woods = await openHouse({ names: () => vouching.hosts(), trust: () => ({ tlsPort: secure.port }) });
  plain = await serve({ app: woods.app, port: 0, host: 'every' });
  secure = await serve({ app: woods.app, port: 0, host: 'every', tls: vouching.certificate() });
});
afterAll(async () => {
  await plain.close();
  await secure.close();
  await woods.end();
  rmSync(home, { recursive: true });
});

const authority = () => readFileSync(join(home, 'trust/authority.crt.pem'), 'utf8');
const bracketed = (host: string) => (host.includes(':') ? `[${host}]` : host);
const lan = (path: string, server: Served) =>
  `${server === secure ? 'https' : 'http'}://${bracketed(address ?? '')}:${server.port}${path}`;

type Asked = { method?: string; headers?: Record<string, string>; body?: string; ca?: string | null };
function ask(url: string, { method = 'GET', headers = {}, body, ca = authority() }: Asked = {}) {
  return new Promise<{ status: number; text: string; code?: string }>((resolve) => {
    const send = url.startsWith('https:') ? secureRequest : plainRequest;
    // Every question on a connection of its own: one that is kept has seen an earlier certificate.
    send(
      url,
      { method, headers, agent: false, ...(url.startsWith('https:') ? verifying(url, ca) : {}) },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8');
        answer.on('data', (part: string) => (text += part));
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text }));
      },
    )
      .on('error', (error: NodeJS.ErrnoException) => resolve({ status: 0, text: '', code: error.code ?? '' }))
      .end(body);
  });
}
/** Whatever the Host says, the certificate is held against the address that was dialled. */
const verifying = (url: string, ca: string | null) => ({
  ...(ca === null ? {} : { ca }),
  checkServerIdentity: (_host: string, certificate: PeerCertificate) =>
    checkServerIdentity(new URL(url).hostname.replaceAll(/[[\]]/g, ''), certificate),
});
const pairing = (code: string) => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify({ code, device: randomUUID(), label: 'phone', personName: 'Ann Weaver' }),
});

describe.skipIf(address === undefined)('from an address in the net', () => {
  it('HTTPS is verified against the authority, and against nothing else', async () => {
    expect((await ask(lan('/field/', secure))).status).toBe(200);
    expect((await ask(lan('/field/', secure), { ca: null })).status).toBe(0);
    // A client that takes the machine's usual authorities does not know ours.
    const { stdout } = await promisify(execFile)(process.execPath, [
      '-e',
      `require('https').get(process.argv[1]).on('error', (error) => console.log(error.code)).on('response', () => console.log('taken'))`,
      lan('/field/', secure),
    ]);
    expect(stdout.trim()).toBe('SELF_SIGNED_CERT_IN_CHAIN');
  });

  it('the logbook is shut without a token, opens with one, and a recorder is no keeper', async () => {
    expect((await ask(lan('/api/stand', secure))).status).toBe(401);
    const { code } = woods.codes.make('recorder');
    const paired = await ask(lan('/api/pairing', secure), pairing(code));
    expect(paired.status).toBe(201);
    const { token } = JSON.parse(paired.text) as { token: string };
    const headers = { authorization: `Bearer ${token}` };
    expect((await ask(lan('/api/stand', secure), { headers })).status).toBe(200);
    const written = await ask(lan('/api/events', secure), {
      method: 'POST',
      headers: { ...headers, 'content-type': 'application/json' },
      body: JSON.stringify({ kind: 'note-written', fields: { text: 'x' } }),
    });
    expect(written.status).toBe(403);
  });

  it('plain HTTP gives the guide and the page, and nothing else', async () => {
    expect((await ask(lan('/trust/', plain))).status).toBe(200);
    expect((await ask(lan('/field/sw.js', plain))).status).toBe(200);
    for (const path of ['/api/stand', '/api/head', '/reports/harvest', '/style.css', '/layers'])
      expect(await ask(lan(path, plain)), path).toMatchObject({ status: 403 });
    const { code } = woods.codes.make('recorder');
    expect((await ask(lan('/api/pairing', plain), pairing(code))).text).toContain('needs-https');
  });

  it('a name that somebody else pointed here is refused (DNS rebinding), also over HTTPS', async () => {
    for (const server of [plain, secure])
      for (const host of [
        'evil.example',
        `evil.example:${server.port}`,
        bracketed(address ?? ''),
        '203.0.113.1:80',
      ])
        expect((await ask(lan('/field/', server), { headers: { host } })).status, host).toBe(421);
    for (const host of vouching.hosts()) {
      const asked = { headers: { host: `${host}:${secure.port}` } };
      expect((await ask(lan('/field/', secure), asked)).status, host).toBe(200);
    }
  });
});

describe('on this machine', () => {
  it('everything is as before, over HTTP and HTTPS', async () => {
    for (const url of [`http://127.0.0.1:${plain.port}`, `https://localhost:${secure.port}`]) {
      expect((await ask(`${url}/api/stand`)).status).toBe(200);
      const headers = { 'content-type': 'application/json' };
      const body = JSON.stringify({ kind: 'note-written', fields: { text: 'at the desk' } });
      expect((await ask(`${url}/api/events`, { method: 'POST', headers, body })).status).toBe(201);
      const other = {
        ...headers,
        origin: url.replace(/^https?/, (scheme) => (scheme === 'http' ? 'https' : 'http')),
      };
      expect((await ask(`${url}/api/events`, { method: 'POST', headers: other, body })).status).toBe(403);
    }
  });

  it('another certificate is shown once it is there, to connections that come then', async () => {
    const machine = () => ({ addresses: ['10.1.2.3'], names: [] });
    const other = await vouch({ now: Date.now, home, machine });
    secure.renew(other.certificate());
    expect((await ask(`https://localhost:${secure.port}/field/`)).status).toBe(200);
    if (address !== undefined)
      expect((await ask(lan('/field/', secure))).code).toBe('ERR_TLS_CERT_ALTNAME_INVALID');
    await vouching.refresh();
    secure.renew(vouching.certificate());
    if (address !== undefined) expect((await ask(lan('/field/', secure))).status).toBe(200);
  });
});

describe.skipIf(!needs('chromium', 'certutil'))('Chromium', () => {
  /** What a page there may do, as far as the browser says. */
  const powers =
    '({ secure: isSecureContext, keys: Boolean(globalThis.crypto?.subtle), worker: "serviceWorker" in navigator, title: document.title })';

  async function look(url: string, trusting: boolean): Promise<unknown> {
    // Chromium on Linux reads the authorities that a person trusts from the NSS database of the home folder.
    const person = mkdtempSync(join(tmpdir(), 'gapledger-person-'));
    const database = join(person, '.pki/nssdb');
    mkdirSync(database, { recursive: true });
    execFileSync('certutil', ['-d', `sql:${database}`, '-N', '--empty-password']);
    if (trusting)
      execFileSync(
        'certutil',
        ['-d', `sql:${database}`, '-A', '-t', 'C,,', '-n', 'gapledger'].concat(
          '-i',
          join(home, 'trust/authority.crt.pem'),
        ),
      );
    const browser = await chromium.launch({
      executablePath: programOnPath('chromium'),
      args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
      env: { PATH: process.env.PATH ?? '', HOME: person },
    });
    try {
      const page = await browser.newPage();
      await page.goto(url);
      return await page.evaluate(powers);
    } catch (error) {
      return error instanceof Error ? error.message : error;
    } finally {
      await browser.close();
      rmSync(person, { recursive: true, force: true });
    }
  }

  it('that trusts the authority opens the page as a secure context', async () => {
    const all = { secure: true, keys: true, worker: true, title: 'secure' };
    expect(await look(`https://localhost:${secure.port}/field/`, true)).toEqual(all);
    if (address !== undefined) expect(await look(lan('/field/', secure), true)).toEqual(all);
  }, 120_000);

  it('that does not trust it warns, and over plain HTTP gives the page none of these powers', async () => {
    expect(await look(`https://localhost:${secure.port}/field/`, false)).toContain(
      'ERR_CERT_AUTHORITY_INVALID',
    );
    if (address !== undefined)
      expect(await look(lan('/field/', plain), false)).toEqual({
        secure: false,
        keys: false,
        worker: false,
        title: 'not secure',
      });
  }, 120_000);
});
