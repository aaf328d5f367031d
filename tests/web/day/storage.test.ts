// What a phone's storage does to the whole page: it is cleared, it is full; and what a page keeps that is killed
// between saving and showing a stop card, or that gets no service worker.
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { needs } from '../../needs.ts';
import { type DayHouse, open, openDayHouse } from './house.ts';
import {
  button,
  deviceOf,
  eventually,
  heading,
  newPhone,
  note,
  openSending,
  otherWork,
  own,
  type Phone,
  pair,
  pairedPhone,
  reopened,
  stored,
} from './phones.ts';

describe.skipIf(!needs('chromium'))('The storage of a phone', { timeout: 180_000 }, () => {
  let house: DayHouse;
  let phone: Phone;
  beforeAll(async () => {
    house = await openDayHouse();
  });
  afterAll(() => house.end());
  beforeEach(async () => {
    phone = await pairedPhone(house);
  });
  afterEach(async () => {
    house.between(open);
    await phone.context.close();
  });

  test('cleared: the phone begins anew and says so, and what it had sent comes back', async () => {
    let { page } = phone;
    const before = await deviceOf(page);
    await note(page, 'sent before');
    await page.getByText(/^All sent/).waitFor();
    await expect.poll(() => house.entriesOf(before), eventually).toHaveLength(1);
    await phone.context.setOffline(true);
    await note(page, 'waited only');
    const devtools = await phone.context.newCDPSession(page);
    await devtools.send('Storage.clearDataForOrigin', {
      origin: new URL(house.page).origin,
      storageTypes: 'all',
    });
    await phone.context.setOffline(false);
    page = await reopened(phone, `${house.page}#/today`);
    await button(page, 'Pair with the logbook').click();
    await page.getByText(/This phone begins anew.*what still waited on it is lost/).waitFor();
    page = await pair(house, phone);
    const after = await deviceOf(page);
    expect(after).not.toBe(before);
    const texts = async () =>
      (await stored<{ text: string }>(page, 'gapledger', 'entries')).map(({ text }) => text);
    await expect
      .poll(async () => (await texts()).some((text) => text.includes('sent before')), eventually)
      .toBe(true);
    expect((await texts()).some((text) => text.includes('waited only'))).toBe(false);
    await openSending(page);
    await page.getByText(/knows another phone called Ruth's phone, with 1 entry\./).waitFor();
    // Its own numbers begin at 1 again, under another device.
    await button(page, 'Back to today').click();
    await note(page, 'after');
    await expect.poll(() => house.entriesOf(after), eventually).toMatchObject([{ seq: 1 }]);
    expect(phone.errors).toEqual([]);
  });

  test('cleared under an open page: nothing is written over the gap, and the logbook gives everything back', async () => {
    let { page } = phone;
    const before = await deviceOf(page);
    await note(page, 'sent before');
    await expect.poll(() => house.entriesOf(before), eventually).toHaveLength(1);
    const all = (await stored(page, 'gapledger', 'entries')).length;
    const devtools = await phone.context.newCDPSession(page);
    const { origin } = new URL(house.page);
    await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
    await otherWork(page, 'Write a note');
    await page.getByLabel('Note').fill('after it was cleared');
    await button(page, 'Keep it').click();
    await page.getByText(/refused to store it. Nothing was kept/).waitFor();
    await openSending(page);
    await button(page, 'Send now').click();
    await page.getByText(/storage of this phone was cleared.*Load this page again/).waitFor();
    page = await reopened(phone, `${house.page}#/today`);
    await heading(page, 'Gapledger').waitFor();
    page = await pair(house, phone);
    expect(await deviceOf(page)).not.toBe(before);
    await expect
      .poll(async () => (await stored(page, 'gapledger', 'entries')).length, eventually)
      .toBeGreaterThanOrEqual(all);
    expect((await house.entriesOf(before)).map(({ body }) => body.text)).toEqual(['sent before']);
  });

  test('full: what is there still opens, the draft stays, nothing is stored by halves; with room again it goes on', async () => {
    const { page } = phone;
    await otherWork(page, 'Write a note');
    await page.getByLabel('Note').fill('before the phone was full');
    await expect
      .poll(() => stored<{ text?: string }>(page, 'gapledger', 'kept'), eventually)
      .toContainEqual(expect.objectContaining({ text: 'before the phone was full' }));
    const rows = await own(page);
    const { origin } = new URL(house.page);
    const devtools = await phone.context.newCDPSession(page);
    await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
    // Chromium goes on for half a minute by the room that it last saw.
    await expect.poll(() => canWrite(page), { timeout: 90_000, interval: 1_000 }).toBe(false);
    await button(page, 'Keep it').click();
    await page.getByText(/refused to store it. Nothing was kept; what you typed is still here/).waitFor();
    await page.getByText(/^This phone is full/).waitFor();
    expect(await own(page)).toEqual(rows);
    await page.reload();
    await page.getByText(/^This phone is full/).waitFor();
    expect(await page.getByLabel('Note').inputValue()).toBe('before the phone was full');
    await button(page, 'Back to today').click();
    await button(page, /^Group in hand: G1/).waitFor();
    await devtools.send('Storage.overrideQuotaForOrigin', { origin });
    await otherWork(page, 'Write a note');
    await button(page, 'Keep it').click();
    await page.getByText('Kept: before the phone was full').waitFor();
    expect((await own(page)).at(-1)?.seq).toBe(rows.length + 1);
    expect(await page.getByText(/This phone is full/).count()).toBe(0);
  });

  test('a page killed before it could write the stop card down shows it when it opens', async () => {
    let { page } = phone;
    await button(page, /^A1/).click();
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
        const { reasons = [] } = (value ?? {}) as { reasons?: unknown[] };
        if (key === 'draft:stop' && reasons.length > 0) throw new DOMException('killed', 'AbortError');
        return put.call(this, value, key);
      };
    });
    await button(page, 'It hangs').click();
    const words = 'It hangs in another tree';
    await page.getByRole('alertdialog').getByText(words).waitFor();
    page = await reopened(phone, `${house.page}#/today`);
    await page.getByRole('alertdialog').getByText(words).waitFor();
    await button(page, 'I have read this').click();
    await button(page, /^A1 hangs/).waitFor();
    page = await reopened(phone);
    await button(page, /^A1 hangs/).waitFor();
    expect(await page.getByRole('alertdialog').count()).toBe(0);
  });

  test.each([
    ['gives nothing', () => Promise.resolve(undefined)],
    ['rejects', () => Promise.reject(new TypeError('no worker here'))],
    [
      'throws',
      () => {
        throw new DOMException('not here', 'SecurityError');
      },
    ],
  ])(
    'a browser whose service worker registration %s works as long as the page is open',
    async (_, register) => {
      const other = await newPhone(house);
      await other.context.addInitScript(`navigator.serviceWorker.register = ${register.toString()};`);
      await other.page.goto(`${house.page}#/settings`);
      await heading(other.page, 'Settings').waitFor();
      const page = await pair(house, other);
      await note(page, 'kept all the same');
      await page.getByText(/^All sent/).waitFor();
      expect(other.errors).toEqual([]);
      await other.context.close();
    },
  );
});

/** Whether this origin may write anything: tried in a database of its own. */
function canWrite(page: Page): Promise<boolean> {
  return page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((done) => {
      const request = indexedDB.open('scratch', 1);
      request.onupgradeneeded = () => request.result.createObjectStore('scratch', { autoIncrement: true });
      request.onsuccess = () => done(request.result);
    });
    const written = await new Promise<boolean>((done) => {
      const transaction = db.transaction('scratch', 'readwrite', { durability: 'strict' });
      transaction.objectStore('scratch').put('a word');
      transaction.oncomplete = () => done(true);
      transaction.onabort = () => done(false);
    });
    db.close();
    return written;
  });
}
