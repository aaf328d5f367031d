// What a network does to the whole page: answers that get lost, a page killed in between, the same thing sent twice,
// two windows, a sign-in page, a line that was spoiled on its way. In the end the logbook has the set of the phone.
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { needs } from '../../needs.ts';
import { type DayHouse, open, openDayHouse, type Way } from './house.ts';
import {
  button,
  deviceOf,
  eventually,
  note,
  openSending,
  own,
  type Phone,
  pairedPhone,
  reopened,
} from './phones.ts';

const isApi = (request: Request) => new URL(request.url).pathname.startsWith('/api/');
/** A request that brings entries. */
const brings = async (request: Request) =>
  request.method === 'POST' && isApi(request) && !(await request.clone().text()).includes('"lines":[]');

describe.skipIf(!needs('chromium'))('On a bad network', { timeout: 180_000 }, () => {
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

  /** The phone and the logbook hold the same, each entry once, and the phone knows where each is. */
  async function agree(page: Page): Promise<void> {
    await page.getByText(/^All sent/).waitFor({ timeout: 60_000 });
    const [here, there] = [await own(page), await house.entriesOf(await deviceOf(page))];
    expect(there.map(({ id }) => id).sort()).toEqual(here.map(({ id }) => id).sort());
    expect(here.map(({ seq }) => seq)).toEqual(here.map((_, index) => index + 1));
    for (const { id, position } of here) expect((await house.log.get(id))?.position).toBe(position);
    expect(phone.errors).toEqual([]);
  }

  test('a page killed between "the logbook has it" and the answer sends again when it is opened, and nothing is twice', async () => {
    const device = await deviceOf(phone.page);
    const stored = new Promise<void>((done) => {
      house.between(async (request, pass) => {
        const isIt = await brings(request);
        const answer = await pass();
        if (!isIt) return answer;
        done();
        return new Promise<Response>(() => undefined);
      });
    });
    await note(phone.page, 'wind rising');
    await stored;
    await phone.page.close();
    const inLogbook = (await house.entriesOf(device)).map(({ body }) => body.text);
    expect(inLogbook).toEqual(['wind rising']);
    house.between(open);
    // The phone does not know that it arrived: until it is told, it waits.
    await phone.context.setOffline(true);
    const page = await reopened(phone, house.page);
    await page.getByText(/^1 not sent/).waitFor();
    await phone.context.setOffline(false);
    await agree(page);
  });

  test('what arrives a second time from anywhere changes nothing', async () => {
    const heard: { body: string; headers: Headers }[] = [];
    house.between(async (request, pass) => {
      if (await brings(request)) heard.push({ body: await request.clone().text(), headers: request.headers });
      return pass();
    });
    const { page } = phone;
    for (const words of ['one', 'two', 'three']) await note(page, words);
    await agree(page);
    const before = await house.log.head();
    expect(heard.length).toBeGreaterThan(0);
    for (const { body, headers } of [...heard, ...heard]) {
      const again = await fetch(new URL('../api/exchange', house.page), {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          authorization: headers.get('authorization') ?? '',
        },
        body,
      });
      const { receipts } = (await again.json()) as { receipts: { outcome: string }[] };
      expect(new Set(receipts.map(({ outcome }) => outcome))).toEqual(new Set(['already-recorded']));
    }
    expect(await house.log.head()).toEqual(before);
    await agree(page);
  });

  test('two windows that save and send at once use each number once and send each entry', async () => {
    const { page } = phone;
    const other = await phone.context.newPage();
    await other.goto(house.page);
    await button(other, 'Other work').waitFor();
    await Promise.all(
      [page, other].map(async (window, index) => {
        for (const count of [1, 2, 3, 4]) await note(window, `window ${index + 1}, ${count}`);
      }),
    );
    await Promise.all(
      [page, other].map(async (window) => {
        await openSending(window);
        await button(window, 'Send now').click();
      }),
    );
    await agree(page);
    await other.getByText(/^All sent/).waitFor();
    const texts = (await own(page)).map(({ body }) => body.text);
    expect(texts).toHaveLength(8);
    expect(new Set(texts).size).toBe(8);
  });

  test.each([2, 3])(
    'where one answer in %i gets lost after the logbook has it, everything gets there',
    async (k) => {
      let asked = 0;
      const losing: Way = async (request, pass, cut) => {
        const answer = await pass();
        if (!isApi(request)) return answer;
        asked += 1;
        return asked % k === 0 ? cut() : answer;
      };
      house.between(losing);
      const { page } = phone;
      for (const count of [1, 2, 3, 4, 5]) await note(page, `${count} of 5`);
      await agree(page);
      expect(asked).toBeGreaterThanOrEqual(k);
    },
  );

  test('a sign-in page that answers for the logbook is taken for no answer', async () => {
    house.between(async (request, pass) =>
      isApi(request)
        ? new Response('<!doctype html><title>Welcome</title><h1>Sign in to the wireless network</h1>', {
            headers: { 'content-type': 'text/html' },
          })
        : pass(),
    );
    const { page } = phone;
    await note(page, 'on the porch of the inn');
    await openSending(page);
    await page.getByText(/Something other than the logbook answered/).waitFor();
    await page.getByText('1 entry', { exact: true }).waitFor();
    house.between(open);
    await button(page, 'Send now').click();
    await agree(page);
  });

  test('a line that was spoiled needs attention, later entries go on, and by hand it comes through', async () => {
    house.between(async (request, pass, cut) => {
      if (!(await brings(request))) return pass();
      const body = (await request.clone().json()) as { lines: { entry: string }[] };
      const [first] = body.lines.filter(({ entry }) => entry.includes('spoiled'));
      if (first === undefined) return pass();
      const answer = await fetch(request.url, {
        method: 'POST',
        headers: request.headers,
        body: JSON.stringify({ ...body, lines: body.lines.map((line) => spoiled(line)) }),
      });
      return answer.ok ? answer : cut();
    });
    const { page } = phone;
    await note(page, 'spoiled on its way');
    await page.getByText(/1 entry needs attention/).waitFor();
    await note(page, 'later');
    await openSending(page);
    await page.getByText(/1 entry needs attention; 1 not sent/).waitFor();
    await expect.poll(async () => (await own(page)).at(-1)?.position, eventually).toBeTypeOf('number');
    await page.getByRole('heading', { name: 'Needs attention' }).waitFor();
    await page.getByText(/note-written: the logbook cannot read it/).waitFor();
    house.between(open);
    await button(page, 'Send now').click();
    await agree(page);
    expect(await page.getByRole('heading', { name: 'Needs attention' }).count()).toBe(0);
  });
});

/** The same line with its text changed: its signature no longer holds. */
function spoiled<T extends { entry: string }>(line: T): T {
  return line.entry.includes('spoiled') ? { ...line, entry: line.entry.replace('spoiled', 'sqoiled') } : line;
}
