// A newer version of the page comes while a day's work waits on the phone: it is loaded beside the one that runs, comes
// into use when somebody says so, and everything that waited is sent by it.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { needs } from '../../needs.ts';
import { cameraFile } from './camera.ts';
import { closed, type DayHouse, open, openDayHouse } from './house.ts';
import {
  button,
  deviceOf,
  eventually,
  heading,
  note,
  otherWork,
  own,
  pairedPhone,
  reopened,
} from './phones.ts';

describe.skipIf(!needs('chromium'))('An update', { timeout: 180_000 }, () => {
  let house: DayHouse;
  beforeAll(async () => {
    house = await openDayHouse();
  });
  afterAll(() => house.end());

  test('with entries, a photo and a draft waiting loses none of them', async () => {
    const phone = await pairedPhone(house);
    let { page } = phone;
    const device = await deviceOf(page);
    // The page's own files come through, and nothing of the logbook's answers.
    house.between((request, pass, cut) =>
      new URL(request.url).pathname.startsWith('/api/') ? closed(request, pass, cut) : pass(),
    );
    for (const words of ['one', 'two', 'three']) await note(page, words);
    await otherWork(page, 'Take a photo');
    const picture = { name: 'a.jpg', mimeType: 'image/jpeg', buffer: await cameraFile(page, 800, 600) };
    await page.setInputFiles('input[type=file]', picture);
    await page.getByText(/800 × 600/).waitFor();
    await button(page, 'Keep the photo').click();
    await heading(page, 'Today').waitFor();
    await otherWork(page, 'Write a note');
    await page.getByLabel('Note').fill('half a sentence');
    const before = await own(page);
    const build = () => page.locator('meta[name=build]').getAttribute('content');
    const first = await build();

    await house.release('Second');
    page = await reopened(phone, `${house.page}#/today`);
    await button(page, /Use the new version/).waitFor();
    expect(await build()).toBe(first);
    await button(page, /Use the new version/).click();
    await expect.poll(build, eventually).not.toBe(first);
    await heading(page, 'Today').waitFor();
    await page.getByText(/4 not sent.*1 photo not sent/).waitFor();
    expect((await own(page)).map(({ text }) => text)).toEqual(before.map(({ text }) => text));
    await otherWork(page, 'Write a note');
    expect(await page.getByLabel('Note').inputValue()).toBe('half a sentence');

    house.between(open);
    await page.getByRole('button', { name: /Open Sending/ }).click();
    await button(page, 'Send now').click();
    await page.getByText(/^All sent/).waitFor();
    expect((await house.entriesOf(device)).map(({ id }) => id)).toEqual(before.map(({ id }) => id));
    expect(phone.errors).toEqual([]);
    await phone.context.close();
  });
});
