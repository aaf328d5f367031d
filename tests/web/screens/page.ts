// The real page for tests: built by Vite, served as static files, opened in Chromium, working by files. No server of
// the logbook is needed.
import { createReadStream, existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { build } from 'vite';
import { programOnPath } from '../../needs.ts';
import { woodlotCopy } from './woodlot.ts';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.webmanifest': 'application/manifest+json',
};

/** Sizes of screens in CSS pixels. */
export const phone = { width: 360, height: 740 };
export const largePhone = { width: 412, height: 915 };
export const desk = { width: 1280, height: 800 };

export type Site = Readonly<{ address: string; browser: Browser; close: () => Promise<void> }>;

/** Builds the page and serves it on this machine. */
export async function openSite(): Promise<Site> {
  const folder = mkdtempSync(join(tmpdir(), 'gapledger-field-'));
  const config = join(root, 'vite.config.ts');
  await build({
    root: join(root, 'src/web/field'),
    base: './',
    logLevel: 'error',
    configFile: existsSync(config) ? config : false,
    build: { outDir: folder, emptyOutDir: true, reportCompressedSize: false },
  });
  const server = await serve(folder);
  const browser = await chromium.launch({
    executablePath: programOnPath('chromium'),
    args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
  });
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://localhost:${port}/`,
    browser,
    close: async () => {
      await browser.close();
      await new Promise((done) => server.close(done));
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function serve(folder: string): Promise<Server> {
  const server = createServer(({ url = '/' }, response) => {
    const path = normalize(decodeURIComponent(url.split('?')[0] ?? '/')).replace(/^(\.\.[/\\])+/, '');
    const file = join(folder, path.endsWith('/') ? `${path}index.html` : path);
    if (!existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(response);
  });
  return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}

export type Opened = Readonly<{ page: Page; context: BrowserContext; errors: string[] }>;
type Wanted = Readonly<{
  size?: { width: number; height: number };
  /** Position that the phone gives; without it location is denied. */
  at?: { latitude: number; longitude: number; accuracy: number };
  dark?: boolean;
  /** Whether the phone has the demo woodlot and a person; otherwise it is new. */
  isNew?: boolean;
}>;

/** A phone with the page open: the demo woodlot taken in from a file, somebody named, group G2 in hand. */
export async function openPhone(site: Site, wanted: Wanted = {}): Promise<Opened> {
  const context = await site.browser.newContext({
    viewport: wanted.size ?? phone,
    hasTouch: true,
    locale: 'en-US',
    timezoneId: 'America/New_York',
    colorScheme: wanted.dark ? 'dark' : 'light',
    reducedMotion: 'reduce',
    ...(wanted.at === undefined ? {} : { geolocation: wanted.at, permissions: ['geolocation'] }),
  });
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  await page.goto(site.address);
  if (!wanted.isNew) await settle(page);
  return { page, context, errors };
}

async function settle(page: Page): Promise<void> {
  await page.getByRole('button', { name: /Work by files/ }).click();
  await page.setInputFiles('input[type=file]', {
    name: 'copy.ndjson',
    mimeType: 'application/x-ndjson',
    buffer: Buffer.from(woodlotCopy()),
  });
  await page.getByText(/Taken in: \d+ new/).waitFor();
  await page.getByLabel('Your name').fill('Ruth Calloway');
  await page.getByLabel('What this phone is called').fill("Ruth's phone");
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  await page.getByRole('button', { name: /Group in hand/ }).click();
  await page.getByRole('button', { name: /^G2/ }).click();
  await page.getByRole('heading', { name: 'Today' }).waitFor();
}

export type Stored = Readonly<{ type: string; body: Readonly<Record<string, unknown>> }>;

/** The entries that this phone made itself, in their order, read from its own database. */
export async function ownEntries(page: Page): Promise<Stored[]> {
  const texts = await page.evaluate(async () => {
    const names = (await indexedDB.databases()).map(({ name }) => name ?? '');
    const found: string[] = [];
    for (const name of names) {
      const db = await new Promise<IDBDatabase>((done, fail) => {
        const request = indexedDB.open(name);
        request.onsuccess = () => done(request.result);
        request.onerror = () => fail(request.error);
      });
      if (db.objectStoreNames.contains('entries')) {
        const rows = await new Promise<{ own: unknown; text: string }[]>((done, fail) => {
          const request = db.transaction('entries').objectStore('entries').getAll();
          request.onsuccess = () => done(request.result);
          request.onerror = () => fail(request.error);
        });
        found.push(...rows.filter(({ own }) => own).map(({ text }) => text));
      }
      db.close();
    }
    return found;
  });
  return texts.map((text) => JSON.parse(text) as Stored & { seq: number }).sort((a, b) => a.seq - b.seq);
}
