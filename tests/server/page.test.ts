// The start page in a browser, on a phone and on a desk: it asks nobody else, says nothing on the console, needs
// no script, and axe finds nothing serious.
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cautions } from '../../src/felling/index.ts';
import { type Served, serve } from '../../src/server/index.ts';
import { needs, programOnPath } from '../needs.ts';
import { type House, house } from './desk.ts';

describe('the start page', () => {
  it('puts what can hurt somebody before everything else, and then the cautions', async () => {
    const woods = await house();
    const page = await (await woods.ask('/')).text();
    const order = [
      'A1 is recorded as hung up',
      'hanging limb at A3',
      cautions.lead,
      'id="open"',
      'id="groups"',
    ];
    const places = order.map((text) => page.indexOf(text));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    for (const { text } of cautions.points) expect(page).toContain(text);
    expect(page).toContain((await woods.log.head()).root.slice(0, 4));
    await woods.end();
  });

  it('says that a clean record is no promise when nothing dangerous is recorded', async () => {
    const bare = await house({ empty: true });
    const page = await (await bare.ask('/')).text();
    expect(page).toContain('No hung-up stem and no open hazard is recorded');
    expect(page).toMatch(/does not say that there is none/);
    expect(page).toContain(cautions.lead);
    await bare.end();
  });

  it('shows what was typed as text, whatever it was', async () => {
    const woods = await house();
    await woods.record('group-laid-out', { label: '<script>alert(1)</script>"&' });
    const page = await (await woods.ask('/')).text();
    expect(page).not.toContain('<script');
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;&quot;&amp;');
    await woods.end();
  });

  it('links only to what is there', async () => {
    const woods = await house();
    const page = await (await woods.ask('/')).text();
    const links = [...page.matchAll(/(?:href)="([^"]+)"/g)].map(([, link]) =>
      (link ?? '').replaceAll('&amp;', '&'),
    );
    expect(links.length).toBeGreaterThan(30);
    for (const link of links) {
      if (link.startsWith('#')) expect(page).toContain(`id="${link.slice(1)}"`);
      else expect((await woods.ask(link)).status, link).toBe(200);
    }
    await woods.end();
  });
});

describe.skipIf(!needs('chromium'))('in Chromium', () => {
  let browser: Browser;
  let woods: House;
  let served: Served;
  beforeAll(async () => {
    woods = await house();
    served = await serve({ app: woods.app, port: 0 });
    browser = await chromium.launch({
      executablePath: programOnPath('chromium'),
      args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
    });
  });
  afterAll(async () => {
    await browser.close();
    await served.close();
    await woods.end();
  });

  const sizes = [
    { width: 390, height: 844 },
    { width: 1280, height: 900 },
  ];
  const pages = ['', 'reports/harvest'];
  const both = sizes.flatMap((size) => pages.map((path) => ({ ...size, path })));

  it.each(both)('at $width px /$path asks nobody else and is silent', async ({ path, ...viewport }) => {
    const page = await browser.newPage({ viewport });
    const said: string[] = [];
    const asked: string[] = [];
    page.on('console', (message) => said.push(message.text()));
    page.on('pageerror', (error) => said.push(error.message));
    page.on('request', (request) => asked.push(request.url()));
    const answer = await page.goto(new URL(path, served.url).href, { waitUntil: 'networkidle' });
    expect(answer?.status()).toBe(200);
    // The style sheet has to have been applied: a policy that blocks it would leave the page bare.
    expect(await page.evaluate<string>('getComputedStyle(document.body).fontFamily')).toContain('Charter');
    expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
      viewport.width,
    );
    expect(said).toEqual([]);
    expect(asked.filter((url) => !url.startsWith(served.url))).toEqual([]);
    const shots = process.env.GAPLEDGER_SCREENSHOTS;
    if (shots)
      await page.screenshot({
        path: join(shots, `${path.replaceAll('/', '-') || 'start'}-${viewport.width}.png`),
        fullPage: true,
      });
    await page.close();
  });

  it.each(sizes)(
    'at $width px axe finds nothing serious, with everything unfolded',
    async (viewport) => {
      const context = await browser.newContext({ viewport });
      const page = await context.newPage();
      await page.goto(served.url);
      await page.click('summary');
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
      await context.close();
    },
    120_000,
  );

  it('works with scripts switched off', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(served.url);
    await page.getByRole('link', { name: 'G1', exact: true }).click();
    expect(await page.title()).toContain('Harvest report');
    await context.close();
  });

  it('cannot be written to by a page of another origin', async () => {
    const before = await woods.log.head();
    const elsewhere = createServer((_, answer) =>
      answer.setHeader('content-type', 'text/html').end('<p>hello'),
    );
    await new Promise<void>((resolve) => elsewhere.listen(0, '127.0.0.1', resolve));
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${(elsewhere.address() as AddressInfo).port}/`);
    const sendAs = (type: string) =>
      `fetch('${served.url}api/events', { method: 'POST', mode: '${type === 'text/plain' ? 'no-cors' : 'cors'}', headers: { 'content-type': '${type}' },
        body: '{"kind":"note-written","fields":{"text":"x"}}' }).then(({ type }) => type, () => 'blocked')`;
    // A browser sends the first without asking, and gives nothing of the answer away; the second it asks about.
    expect(await page.evaluate<string>(sendAs('text/plain'))).toBe('blocked');
    expect(await page.evaluate<string>(sendAs('application/json'))).toBe('blocked');
    expect(
      await page.evaluate<string>(`fetch('${served.url}api/stand').then(() => 'read', () => 'blocked')`),
    ).toBe('blocked');
    const answers = woods.answered.filter(({ method }) => method === 'POST' || method === 'OPTIONS');
    expect(answers.map(({ method, status }) => `${method} ${status}`)).toEqual(['POST 403', 'OPTIONS 403']);
    await page.close();
    await new Promise((resolve) => elsewhere.close(resolve));
    expect(await woods.log.head()).toEqual(before);
  });
});
