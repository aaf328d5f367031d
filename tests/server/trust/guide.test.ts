// The guide to trust: what it says, that it works without a script and asks nobody else, and that it can be read.
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Served, serve } from '../../../src/server/index.ts';
import { fingerprintOf, permitsInWords, type Vouching, vouch } from '../../../src/server/trust/index.ts';
import { needs, programOnPath } from '../../needs.ts';
import { type OpenHouse, openHouse } from '../phone.ts';

const machine = { addresses: ['192.168.1.10'], names: ['woodshed', 'woodshed.local'] };
const pages = ['/trust/', '/trust/android', '/trust/iphone'];
let woods: OpenHouse;
let home: string;
let vouching: Vouching;
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'gapledger-guide-'));
  vouching = await vouch({ now: Date.now, home, machine: () => machine });
  const { authority } = vouching;
  if (authority === undefined) throw new Error('no authority');
  woods = await openHouse({
    trust: () => ({
      tlsPort: 4748,
      authority: {
        name: 'Gapledger on woodshed 2026-03-20',
        fingerprint: authority.fingerprint,
        ends: '2036-03-20',
        der: authority.der,
        permits: permitsInWords(authority),
      },
    }),
  });
});
afterAll(async () => {
  await woods.end();
  rmSync(home, { recursive: true });
});
const ask = (path: string, tls = false) => woods.from('192.168.1.77', path, { tls });

describe('the guide', () => {
  it.each(pages)('%s is for everybody, over plain HTTP, with nothing from elsewhere', async (path) => {
    const answer = await ask(path);
    expect(answer.status).toBe(200);
    const policy = answer.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/unsafe|\*|http/);
    const page = await answer.text();
    for (const [, address = ''] of page.matchAll(/(?:src|href)="([^"]+)"/g))
      expect(address).toMatch(/^(?:#|\/trust\/|\/field\/|https:\/\/192\.168\.1\.10:4748\/field\/)/);
    expect(page).not.toMatch(/<style|style="|\son[a-z]+="/);
    // Nothing of the logbook is told to somebody who is not paired.
    expect(page).not.toMatch(/Laurel Run|Ann Weaver/);
  });

  it('shows the fingerprint to compare, what trusting means, what works without, and how to take it back', async () => {
    const overview = await (await ask('/trust/')).text();
    const pairs = vouching.authority?.fingerprint ?? '';
    expect(overview.replaceAll(/<\/?span>| /g, '')).toContain(pairs.slice(0, 23));
    expect(overview).toContain('on the screen of the computer');
    expect(overview).toMatch(/could pretend to be any web page/);
    expect(overview).toContain('192.168.0.0/16');
    expect(overview).toMatch(/Does not work:/);
    for (const path of ['/trust/android', '/trust/iphone'])
      expect(await (await ask(path)).text()).toContain('How to remove it later');
  });

  it('gives the certificate of the authority as phones take it, and never its key', async () => {
    const answer = await ask('/trust/gapledger.crt');
    // IANA has no other type for it; browsers know this one since the nineties (from memory).
    expect(answer.headers.get('content-type')).toBe('application/x-x509-ca-cert');
    const der = new Uint8Array(await answer.arrayBuffer());
    expect(fingerprintOf(der)).toBe(vouching.authority?.fingerprint);
    expect(createHash('sha256').update(der).digest('hex').toUpperCase()).toBe(
      vouching.authority?.fingerprint.replaceAll(':', ''),
    );
    for (const path of ['/trust/authority.key.pem', '/trust/server.key.pem', '/trust/..%2fauthority.key.pem'])
      expect((await ask(path)).status).toBe(404);
  });

  it('says that nothing is left to do when it comes over HTTPS', async () => {
    expect(await (await ask('/trust/', true)).text()).toContain('trusts the computer already');
  });

  it('asks for nothing to be installed where the keeper brought a certificate along', async () => {
    const own = await openHouse();
    const page = await (await own.from('192.168.1.77', '/trust/', { tls: false })).text();
    expect(page).toContain('nothing has to be installed');
    expect((await own.from('192.168.1.77', '/trust/gapledger.crt')).status).toBe(404);
    expect((await own.from('192.168.1.77', '/trust/android')).status).toBe(404);
    await own.end();
  });

  it('is where a phone ends up that asks for the bare address; over HTTPS it is the field page', async () => {
    expect((await ask('/')).headers.get('location')).toBe('/trust/');
    expect((await ask('/', true)).headers.get('location')).toBe('/field/');
  });

  it('is not there on a server that phones cannot reach', async () => {
    const alone = await openHouse({ trust: () => undefined });
    const answer = await alone.ask('/trust/');
    expect(answer.status).toBe(404);
    expect(await answer.text()).toContain('serve --lan');
    await alone.end();
  });
});

describe.skipIf(!needs('chromium'))('in Chromium', () => {
  let browser: Browser;
  let served: Served;
  beforeAll(async () => {
    served = await serve({ app: woods.app, port: 0 });
    browser = await chromium.launch({
      executablePath: programOnPath('chromium'),
      args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
    });
  });
  afterAll(async () => {
    await browser.close();
    await served.close();
  });
  const screens = [
    { width: 360, height: 740, colorScheme: 'light' },
    { width: 360, height: 740, colorScheme: 'dark' },
    { width: 1280, height: 800, colorScheme: 'light' },
  ] as const;
  const all = screens.flatMap((screen) => pages.map((path) => ({ ...screen, path })));

  it.each(all)(
    '$path at $width px, $colorScheme, is silent, fits thumbs, and axe finds nothing serious',
    async ({ path, colorScheme, ...viewport }) => {
      const context = await browser.newContext({ viewport, colorScheme });
      const page = await context.newPage();
      const said: string[] = [];
      const asked: string[] = [];
      page.on('console', (message) => said.push(message.text()));
      page.on('pageerror', (error) => said.push(error.message));
      page.on('request', (request) => asked.push(request.url()));
      await page.goto(new URL(path, served.url).href, { waitUntil: 'networkidle' });
      expect(await page.evaluate<string>('getComputedStyle(document.body).fontFamily')).toContain('Charter');
      expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
        viewport.width,
      );
      const small = await page.evaluate<string[]>(`[...document.querySelectorAll('a, button, input')]
        .filter((target) => target.getBoundingClientRect().height < 56)
        .map((target) => target.textContent)`);
      expect(small).toEqual([]);
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
      expect(said).toEqual([]);
      expect(asked.filter((url) => !url.startsWith(served.url))).toEqual([]);
      const shots = process.env.GAPLEDGER_SCREENSHOTS;
      if (shots)
        await page.screenshot({
          path: join(shots, `${path.replaceAll('/', '-')}-${viewport.width}-${colorScheme}.png`),
          fullPage: true,
        });
      await context.close();
    },
    120_000,
  );

  it('carries the code of the scanned address on to the next links, and does without when scripts are off', async () => {
    const links = async (javaScriptEnabled: boolean) => {
      const context = await browser.newContext({ javaScriptEnabled });
      const page = await context.newPage();
      await page.goto(`${served.url}trust/#code=7K2-XQ4-9FM`);
      const found: string[] = await page.evaluate(
        "[...document.querySelectorAll('a')].map((link) => link.getAttribute('href') ?? '')",
      );
      await context.close();
      return found;
    };
    const carried = (await links(true)).filter((link) => link.endsWith('#code=7K2-XQ4-9FM'));
    expect(carried).toHaveLength(4);
    expect(carried.some((link) => link.includes(':4748/field/'))).toBe(true);
    expect((await links(false)).filter((link) => link.includes('code='))).toEqual([]);
    expect(await links(false)).toHaveLength(carried.length);
  });
});
