// A whole day in the woods on the real page: paired in the morning, no signal until evening, killed in the middle.
// Nothing counts as sent before the logbook has it, and then it has everything, signed.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { verifyLogbook } from '../../../src/log/store/index.ts';
import { keyFrom, rowsMayFollow } from '../../../src/record/index.ts';
import { needs } from '../../needs.ts';
import { cameraFile } from './camera.ts';
import { type DayHouse, open, openDayHouse } from './house.ts';
import {
  button,
  deviceOf,
  heading,
  note,
  openSending,
  otherWork,
  own,
  pairedPhone,
  reopened,
  rest,
} from './phones.ts';

describe.skipIf(!needs('chromium'))('A day', { timeout: 180_000 }, () => {
  let house: DayHouse;
  beforeAll(async () => {
    house = await openDayHouse();
  });
  afterAll(() => house.end());

  test('offline from morning to evening ends with the set of the phone in the logbook', async () => {
    const phone = await pairedPhone(house);
    let { page } = phone;
    const device = await deviceOf(page);
    const before = await house.entriesOf(device);
    await phone.context.setOffline(true);
    await house.shut();

    // Two stems marked, a sapling protected.
    await button(page, 'Mark').click();
    await button(page, 'Cut').click();
    await page.getByText('Kept: A4 marked to be cut').waitFor();
    await rest(page);
    await button(page, 'Leave').click();
    await page.getByText('Kept: A5 marked to stay').waitFor();
    await button(page, 'Back to today').click();
    await otherWork(page, 'Protect a sapling');
    await button(page, 'Protect it').click();
    await page.getByText(/Kept: S2/).waitFor();
    await button(page, 'Back to today').click();

    // One comes down, with a sound stump; one hangs, and the card comes before anything else.
    await button(page, /^A1/).click();
    await button(page, 'It is down').click();
    await heading(page, 'Rot at the stump').waitFor();
    await rest(page);
    await button(page, /^Looked, none/).click();
    await heading(page, 'Today').waitFor();
    await button(page, /^A2/).click();
    await button(page, 'It hangs').click();
    const card = page.getByRole('alertdialog', { name: 'Stop.' });
    await card.getByText('It hangs in another tree').waitFor();

    // The page is killed while the card is up: it opens without a network, and with the card.
    page = await reopened(phone, `${house.page}#/today`);
    const again = page.getByRole('alertdialog', { name: 'Stop.' });
    await again.getByText('It hangs in another tree').waitFor();
    expect(await page.locator('[inert] h1').count()).toBe(1);
    await again.getByRole('button', { name: 'I have read this' }).click();
    await button(page, /^A2 hangs/).waitFor();
    expect(await own(page)).toHaveLength(before.length + 6);

    await button(page, /^A2 hangs/).click();
    await button(page, 'It is down now').click();
    await heading(page, 'Rot at the stump').waitFor();
    await button(page, 'Back to today').click();
    await otherWork(page, 'Check a sapling');
    await page.getByRole('group', { name: /S1/ }).getByRole('button', { name: 'unharmed' }).click();
    await page.getByText(/Kept: S1 unharmed/).waitFor();
    await button(page, 'Back to today').click();
    await otherWork(page, 'Note damage');
    await button(page, 'soil').click();
    await button(page, 'Note it').click();
    await heading(page, 'Today').waitFor();
    await otherWork(page, 'Take a photo');
    await page.getByLabel('What it shows').fill('the stump of A1');
    await page.setInputFiles('input[type=file]', {
      name: 'stump.jpg',
      mimeType: 'image/jpeg',
      buffer: await cameraFile(page, 2000, 1500),
    });
    await page.getByText(/1,600 × 1,200/).waitFor();
    await button(page, 'Keep the photo').click();
    await heading(page, 'Today').waitFor();
    await note(page, 'wind rising, stopped early');
    await otherWork(page, 'Close the opening');
    await button(page, 'Yes').first().click();
    await button(page, 'Close it').click();
    await heading(page, 'Today').waitFor();

    // All of it waits; nothing is called sent.
    const waiting = (await own(page)).filter(({ position }) => position === undefined);
    expect(waiting.map(({ type }) => type)).toEqual([
      'stem-marked',
      'stem-marked',
      'sapling-protected',
      'stem-felled',
      'decay-measured',
      'stem-felled',
      'hang-up-cleared',
      'sapling-checked',
      'damage-noted',
      'photo-taken',
      'note-written',
      'opening-closed',
    ]);
    await page.getByText(/12 not sent.*1 photo not sent/).waitFor();
    page = await reopened(phone, `${house.page}#/saved`);
    await page.getByText('kept on this phone, not sent').first().waitFor();
    expect(await page.getByText(/, sent$/).count()).toBe(0);
    await openSending(page);
    await page.getByText('12 entries').waitFor();

    // Evening: the network is back, and it goes by itself. The photo's bytes come after its entry.
    const asked: string[] = [];
    house.between(async (request, pass, cut) => {
      if (request.method === 'PUT') asked.push('photo');
      else if (request.method === 'POST' && (await request.clone().text()).includes('photo-taken'))
        asked.push('entries');
      return open(request, pass, cut);
    });
    await house.reopen();
    await phone.context.setOffline(false);
    await page.getByText(/^All sent/).waitFor();
    house.between(open);
    expect(asked).toEqual(['entries', 'photo']);

    const [here, there] = [await own(page), await house.entriesOf(device)];
    expect(there.map(({ id }) => id)).toEqual(here.map(({ id }) => id));
    expect(here.map(({ seq }) => seq)).toEqual(here.map((_, index) => index + 1));
    for (const { id, position } of here) expect((await house.log.get(id))?.position).toBe(position);
    const photo = there.find(({ type }) => type === 'photo-taken');
    const row = await house.log.sealed(String(photo?.body.photo));
    expect(row?.mediaType).toBe('image/jpeg');
    const result = await verifyLogbook(house.path, { keysFrom: keyFrom, rowsMayFollow });
    expect(result).toMatchObject({ ok: true });
    expect(result.notes.signatures).toMatchObject({ signed: here.length });
    expect(result.notes.aside).toBe(0);
    expect(phone.errors).toEqual([]);
    await phone.context.close();
  });
});
