// Phones with the field page open: pairing one, working on it, and looking into what it has stored.
import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import type { DayHouse } from './house.ts';

export type Phone = { context: BrowserContext; page: Page; errors: string[] };

export const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
export const heading = (page: Page, name: string) => page.getByRole('heading', { level: 1, name });
/** A screen takes nothing for so long after it saved: rain and gloves touch twice. */
export const rest = (page: Page) => page.waitForTimeout(800);

/** How long something may take that goes on by itself. */
export const eventually = { timeout: 40_000 };

export async function newPhone(house: DayHouse, more: BrowserContextOptions = {}): Promise<Phone> {
  const context = await house.browser.newContext({
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    locale: 'en-US',
    timezoneId: 'America/New_York',
    reducedMotion: 'reduce',
    acceptDownloads: true,
    ...more,
  });
  context.setDefaultTimeout(40_000);
  const errors: string[] = [];
  return { context, page: await listenedTo(context, errors), errors };
}

async function listenedTo(context: BrowserContext, errors: string[]): Promise<Page> {
  const page = await context.newPage();
  page.on('pageerror', ({ message }) => errors.push(message));
  return page;
}

/** The page is killed as phones do it, and opened anew where it was, or elsewhere. */
export async function reopened(phone: Phone, address = phone.page.url()): Promise<Page> {
  await phone.page.close();
  phone.page = await listenedTo(phone.context, phone.errors);
  await phone.page.goto(address);
  return phone.page;
}

/** Pairs by the address that the desk shows as a picture, and waits until the logbook is on the phone. */
export async function pair(house: DayHouse, phone: Phone): Promise<Page> {
  const { page } = phone;
  await page.goto(`${house.page}#code=${house.codes.make('recorder').code}`);
  await page.getByLabel('Your name').fill('Ruth Calloway');
  await page.getByLabel('What this phone is called').fill("Ruth's phone");
  await button(page, 'Pair').click();
  await heading(page, 'Today').waitFor();
  await page.getByText(/^All sent/).waitFor();
  return page;
}

export async function takeInHand(page: Page, group = 'G1'): Promise<void> {
  await button(page, /Group in hand/).click();
  await button(page, new RegExp(`^${group}`)).click();
  await button(page, new RegExp(`^Group in hand: ${group}`)).waitFor();
}

/** A paired phone with group G1 in hand; the page opens without a network from now on. */
export async function pairedPhone(house: DayHouse, more: BrowserContextOptions = {}): Promise<Phone> {
  const phone = await newPhone(house, more);
  const page = await pair(house, phone);
  await takeInHand(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  return phone;
}

/** Opens one of the screens behind "Other work". */
export async function otherWork(page: Page, name: string): Promise<void> {
  await button(page, 'Other work').click();
  await button(page, name).click();
}

export async function note(page: Page, words: string): Promise<void> {
  await otherWork(page, 'Write a note');
  await page.getByLabel('Note').fill(words);
  await button(page, 'Keep it').click();
  await page.getByText(`Kept: ${words}`).waitFor();
}

export async function openSending(page: Page): Promise<void> {
  await button(page, /Open Sending/).click();
  await heading(page, 'Sending').waitFor();
}

export type Row = Readonly<{
  id: string;
  text: string;
  own: boolean;
  savedAt: number;
  waiting?: number;
  position?: number;
  signature?: unknown;
  attention?: unknown;
}>;

/** Everything of one store of one database of the phone. */
export async function stored<T>(page: Page, database: string, store: string): Promise<T[]> {
  return page.evaluate(
    async ([name, from]) => {
      const settled = <R>(request: IDBRequest<R>) =>
        new Promise<R>((done, fail) => {
          request.onsuccess = () => done(request.result);
          request.onerror = () => fail(request.error ?? new Error('a request failed'));
        });
      const db = await settled(indexedDB.open(name));
      const rows = await settled(db.transaction(from).objectStore(from).getAll());
      db.close();
      return rows as T[];
    },
    [database, store] as const,
  );
}

/** The entries that this phone made, in their order. */
export async function own(page: Page): Promise<(Row & Entry)[]> {
  const rows = await stored<Row>(page, 'gapledger', 'entries');
  return rows
    .filter((row) => row.own)
    .map((row) => ({ ...(JSON.parse(row.text) as Entry), ...row }))
    .sort((a, b) => a.seq - b.seq);
}
type Entry = Readonly<{
  type: string;
  seq: number;
  device: string;
  recordedAt: string;
  happenedAt: Readonly<{ at: string }>;
  body: Readonly<Record<string, unknown>>;
}>;

/** The id by which this phone signs its entries as a device. */
export async function deviceOf(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((done) => {
      const request = indexedDB.open('gapledger');
      request.onsuccess = () => done(request.result);
    });
    const device = await new Promise<string>((done) => {
      const request = db.transaction('meta').objectStore('meta').get('device') as IDBRequest<string>;
      request.onsuccess = () => done(request.result);
    });
    db.close();
    return device;
  });
}
