// Photos on the real page: made smaller, nothing of the camera's own notes in them, there again after the camera made
// the phone throw the page away. And a clock that is hours off.
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { needs } from '../../needs.ts';
import { cameraFile, segmentsOf, sizeOf } from './camera.ts';
import { type DayHouse, openDayHouse } from './house.ts';
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
} from './phones.ts';

const app1 = 0xe1;

describe.skipIf(!needs('chromium'))('On the real page', { timeout: 180_000 }, () => {
  let house: DayHouse;
  beforeAll(async () => {
    house = await openDayHouse();
  });
  afterAll(() => house.end());

  async function paired(more: Parameters<typeof pairedPhone>[1] = {}): Promise<Phone> {
    const phone = await pairedPhone(house, more);
    onTestFinished(() => phone.context.close());
    return phone;
  }

  test('a photo of 4000 × 3000 is kept at the stated edge, without the place in its EXIF, with the hash of the original', async () => {
    const { page } = await paired();
    const original = await cameraFile(page, 4000, 3000);
    expect(segmentsOf(original)).toContain(app1);
    expect(sizeOf(original)).toEqual({ width: 4000, height: 3000 });
    await otherWork(page, 'Take a photo');
    await page.getByLabel('What it shows').fill('the lay of A1');
    await page.setInputFiles('input[type=file]', {
      name: 'lay.jpg',
      mimeType: 'image/jpeg',
      buffer: original,
    });
    await page.getByText(/1,600 × 1,200/).waitFor();
    await button(page, 'Keep the photo').click();
    await heading(page, 'Today').waitFor();
    await page.getByText(/^All sent/).waitFor();
    const entry = (await own(page)).at(-1);
    expect(entry?.type).toBe('photo-taken');
    const sha256 = createHash('sha256').update(original).digest('hex');
    expect(entry?.body).toMatchObject({ of: 'the lay of A1', original: sha256 });
    expect(entry?.body).not.toHaveProperty('position');
    await expect.poll(() => house.log.sealed(String(entry?.body.photo)), eventually).toBeDefined();
    const { bytes = new Uint8Array() } = (await house.log.sealed(String(entry?.body.photo))) ?? {};
    expect(sizeOf(bytes)).toEqual({ width: 1600, height: 1200 });
    expect(segmentsOf(bytes)).not.toContain(app1);
    expect(Buffer.from(bytes).includes('Exif')).toBe(false);
  });

  test('who chose to keep the position has it in the entry, and still not in the file; the edge is theirs too', async () => {
    const { page } = await paired({
      permissions: ['geolocation'],
      geolocation: { latitude: 35.9531, longitude: -81.7462, accuracy: 4 },
    });
    await otherWork(page, 'Settings');
    await page
      .getByRole('group', { name: 'Position with photos' })
      .getByRole('button', { name: 'keep', exact: true })
      .click();
    await button(page, '1200 px').click();
    await button(page, 'Back to today').click();
    await otherWork(page, 'Take a photo');
    await page.setInputFiles('input[type=file]', {
      name: 'stump.jpg',
      mimeType: 'image/jpeg',
      buffer: await cameraFile(page, 2000, 1500),
    });
    await page.getByText(/1,200 × 900/).waitFor();
    await page.getByText(/^±13 ft from \d+ fix/).waitFor();
    await button(page, 'Keep the photo').click();
    await heading(page, 'Today').waitFor();
    const entry = (await own(page)).at(-1);
    expect(entry?.body.position).toMatchObject({ how: 'fix', accuracy: { value: '4.0', unit: 'm' } });
    await expect.poll(() => house.log.sealed(String(entry?.body.photo)), eventually).toBeDefined();
    const { bytes = new Uint8Array() } = (await house.log.sealed(String(entry?.body.photo))) ?? {};
    expect(segmentsOf(bytes)).not.toContain(app1);
  });

  test('a picture that was taken is there again when the phone threw the page away, and once only', async () => {
    const phone = await paired();
    let { page } = phone;
    await otherWork(page, 'Take a photo');
    await page.getByLabel('What it shows').fill('where A2 hangs');
    await page.setInputFiles('input[type=file]', {
      name: 'hang.jpg',
      mimeType: 'image/jpeg',
      buffer: await cameraFile(page, 1800, 900),
    });
    await page.getByText(/1,600 × 800/).waitFor();
    await phone.context.setOffline(true);
    page = await reopened(phone);
    await page.getByText(/1,600 × 800/).waitFor();
    expect(await page.getByLabel('What it shows').inputValue()).toBe('where A2 hangs');
    await page.getByRole('img', { name: 'The photo as it will be kept' }).waitFor();
    await button(page, 'Keep the photo').click();
    await heading(page, 'Today').waitFor();
    await page.getByText(/1 photo not sent/).waitFor();
    await otherWork(page, 'Take a photo');
    await page.getByText('Open the camera').waitFor();
    expect(await page.getByRole('img', { name: 'The photo as it will be kept' }).count()).toBe(0);
    await phone.context.setOffline(false);
    await page.getByText(/^All sent/).waitFor();
    const [last] = (await own(page)).slice(-1);
    await expect.poll(() => house.log.sealed(String(last?.body.photo)), eventually).toBeDefined();
  });

  test.each([
    ['5 h ahead of', '5 h ahead', 5],
    ['5 h behind', '5 h behind', -5],
  ])(
    "a clock that is %s the logbook's is shown and recorded, and no time is rewritten",
    async (shown, kept, hours) => {
      const phone = await newPhone(house);
      onTestFinished(() => phone.context.close());
      const offset = hours * 3_600_000;
      await phone.context.addInitScript((ahead) => {
        const RealDate = Date;
        const shifted = () => RealDate.now() + ahead;
        globalThis.Date = new Proxy(RealDate, {
          construct: (target, given) =>
            Reflect.construct(target, given.length === 0 ? [shifted()] : given) as object,
          get: (target, member) => (member === 'now' ? shifted : (Reflect.get(target, member) as unknown)),
        });
      }, offset);
      const page = await pair(house, phone);
      await page.getByText(new RegExp(`This phone's clock is ${shown}`)).waitFor();
      await note(page, 'by the wrong clock');
      await page.getByText(/^All sent/).waitFor();
      const device = await deviceOf(page);
      await expect
        .poll(async () => (await house.entriesOf(device)).map(({ type }) => type).sort(), eventually)
        .toEqual(['clock-offset-noted', 'note-written']);
      const [noted, written] = await own(page);
      const ahead = noted?.body.ahead as { value: string; unit: string };
      expect(ahead.unit).toBe('s');
      expect(Math.abs(Number(ahead.value) - hours * 3600)).toBeLessThan(30);
      const inLogbook = (await house.log.get(written?.id ?? ''))?.bytes;
      expect(new TextDecoder().decode(inLogbook)).toBe(written?.text);
      expect(Math.abs(Date.parse(written?.recordedAt ?? '') - Date.now() - offset)).toBeLessThan(60_000);
      await openSending(page);
      await page.getByText(`Recorded: ${kept}.`).waitFor();
      expect(phone.errors).toEqual([]);
    },
  );
});
