// The service worker in a real browser, on a path of some host: the page opens without a network, a newer version
// waits until somebody wants it, and what was recorded stays through all of it.
import { createReadStream, existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../../cli/prepare.mjs';
import { needs, programOnPath } from '../../needs.ts';
import { ownEntries } from '../screens/page.ts';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
};
const base = '/some/path/';
const scratch = mkdtempSync(join(tmpdir(), 'gapledger-updates-'));
const versions = { one: join(scratch, 'one'), two: join(scratch, 'two') };
let served = versions.one;
let isDown = false;
const asked: string[] = [];

const server = createServer(({ url = '/' }, response) => {
  if (isDown) return response.destroy();
  asked.push(url);
  const path = new URL(url, 'http://here').pathname;
  const name = path.startsWith(base) ? path.slice(base.length) || 'index.html' : '';
  const file = join(served, name);
  if (name === '' || !existsSync(file) || !statSync(file).isFile()) return response.writeHead(404).end();
  response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
  return createReadStream(file).pipe(response);
});

async function make(folder: string, title: string): Promise<void> {
  await build({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'error',
    plugins: [
      {
        name: 'another-title',
        transformIndexHtml: (html) => html.replace('<title>Gapledger', `<title>${title}`),
      },
    ],
    build: { outDir: folder, emptyOutDir: true, reportCompressedSize: false },
  });
}

beforeAll(async () => {
  await make(versions.one, 'First');
  await make(versions.two, 'Second');
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
});
afterAll(() => {
  server.close();
  rmSync(scratch, { recursive: true });
});

const versionOf = (folder: string) =>
  (JSON.parse(readFileSync(join(folder, 'version.json'), 'utf8')) as { build: string }).build;
const shown = (page: Page) => page.locator('meta[name=build]').getAttribute('content');
const caches = (page: Page) => page.evaluate(() => window.caches.keys());
const workerIsReady = (page: Page) =>
  page.evaluate(() => navigator.serviceWorker.ready.then((registration) => registration.active?.state));

test.skipIf(!needs('chromium'))(
  'a full outbox lives through losing the network and through an update that waited to be wanted',
  async () => {
    const browser = await chromium.launch({
      executablePath: programOnPath('chromium'),
      args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
    });
    try {
      const page = await (await browser.newContext({ viewport: { width: 360, height: 740 } })).newPage();
      page.setDefaultTimeout(15_000);
      const address = `http://localhost:${(server.address() as AddressInfo).port}${base}`;
      await page.goto(address);
      await workerIsReady(page);
      await page.getByRole('button', { name: /Work by files/ }).click();
      await page.getByLabel('Your name').fill('Ruth Calloway');
      await page.getByLabel('What this phone is called').fill("Ruth's phone");
      await page.getByRole('button', { name: 'Begin' }).click();
      await page.getByRole('heading', { name: 'Today' }).waitFor();
      const outbox = await ownEntries(page);
      expect(outbox.map(({ type }) => type)).toEqual(['person-named']);

      isDown = true;
      await page.reload();
      await page.getByRole('heading', { name: 'Today' }).waitFor();
      expect(await shown(page)).toBe(versionOf(versions.one));
      isDown = false;

      served = versions.two;
      await page.reload();
      // The new version waits; the page is still whole and still the old one.
      await page.getByRole('button', { name: /Use the new version/ }).waitFor();
      expect(await shown(page)).toBe(versionOf(versions.one));
      expect(await caches(page)).toHaveLength(2);
      await page.getByRole('button', { name: /Use the new version/ }).click();
      await page
        .locator(`meta[name=build][content="${versionOf(versions.two)}"]`)
        .waitFor({ state: 'attached' });
      await page.getByRole('heading', { name: 'Today' }).waitFor();
      expect(await ownEntries(page)).toEqual(outbox);

      isDown = true;
      await page.reload();
      await page.getByRole('heading', { name: 'Today' }).waitFor();
      expect(await shown(page)).toBe(versionOf(versions.two));
      const [kept, ...others] = await caches(page);
      expect(others).toEqual([]);
      expect(kept).toContain(base);
      // Its own files and nothing else: a page that is not paired asks no logbook.
      expect(asked.filter((url) => !url.startsWith(base))).toEqual([]);
    } finally {
      await browser.close();
    }
  },
);
