// Where something is, on the real page: what a phone says of itself is flagged and never keeps anybody from saving.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { needs } from '../../needs.ts';
import { type DayHouse, openDayHouse } from './house.ts';
import { button, otherWork, own, type Phone, pairedPhone, rest } from './phones.ts';

const spot = { latitude: 35.9531, longitude: -81.7462 };

describe.skipIf(!needs('chromium'))('A place', { timeout: 180_000 }, () => {
  let house: DayHouse;
  beforeAll(async () => {
    house = await openDayHouse();
  });
  afterAll(() => house.end());

  async function phoneAt(more: Parameters<typeof pairedPhone>[1]): Promise<Phone> {
    const phone = await pairedPhone(house, more);
    onTestFinished(() => phone.context.close());
    return phone;
  }
  const protect = async (page: Page) => {
    await button(page, 'Protect it').click();
    await page.getByText(/^Kept: S\d/).waitFor();
  };

  test('that the phone may not tell is said so, and the entry is kept without it', async () => {
    const { page } = await phoneAt({ permissions: [] });
    await otherWork(page, 'Protect a sapling');
    await button(page, 'Take a fix').click();
    await page.getByText(/does not let this page know where it is/).waitFor();
    await protect(page);
    expect((await own(page)).at(-1)?.body).not.toHaveProperty('position');
  });

  test('known to 80 m is flagged as poor, and kept with its accuracy', async () => {
    const { page } = await phoneAt({
      permissions: ['geolocation'],
      geolocation: { ...spot, accuracy: 80 },
    });
    await otherWork(page, 'Protect a sapling');
    await button(page, 'Take a fix').click();
    await page.getByText(/^POOR: ±262 ft/).waitFor();
    await button(page, 'That is enough').click();
    await protect(page);
    const position = (await own(page)).at(-1)?.body.position as Record<string, unknown>;
    expect(position).toMatchObject({ how: 'fix', accuracy: { value: '80', unit: 'm' } });
    expect(Number(position.lat)).toBeCloseTo(spot.latitude, 6);
    expect(Number(position.lon)).toBeCloseTo(spot.longitude, 6);
  });

  test('two hours old is said to be from before and is not used', async () => {
    const phone = await phoneAt({ permissions: ['geolocation'], geolocation: { ...spot, accuracy: 5 } });
    await phone.context.addInitScript(() => {
      const twoHours = 2 * 3_600_000;
      const older =
        (give: PositionCallback): PositionCallback =>
        ({ coords, timestamp }) =>
          give({ coords, timestamp: timestamp - twoHours } as GeolocationPosition);
      const { geolocation } = navigator;
      const watch = geolocation.watchPosition.bind(geolocation);
      const once = geolocation.getCurrentPosition.bind(geolocation);
      geolocation.watchPosition = (give, ...others) => watch(older(give), ...others);
      geolocation.getCurrentPosition = (give, ...others) => once(older(give), ...others);
    });
    const { page } = phone;
    await page.reload();
    await otherWork(page, 'Protect a sapling');
    await button(page, 'Take a fix').click();
    await page.getByText(/gave a fix from before; it was not used/).waitFor();
    await protect(page);
    expect((await own(page)).at(-1)?.body).not.toHaveProperty('position');
  });

  test('half measured from a stake names what is missing, and is left out when somebody says so', async () => {
    const { page } = await phoneAt({});
    await otherWork(page, 'Protect a sapling');
    await button(page, 'From a stake').click();
    await page.getByRole('group', { name: 'From which stake?' }).getByRole('button').click();
    await button(page, /^Distance/).click();
    for (const digit of ['4', '2'])
      await page.locator('.keypad').getByRole('button', { name: digit, exact: true }).click();
    await page.locator('.keypad').getByRole('button', { name: 'Done' }).click();
    const before = (await own(page)).length;
    await button(page, 'Protect it').click();
    await page.getByText(/^Azimuth from the stake: not there yet/).waitFor();
    expect(await page.getByText(/^Distance from the stake: not there yet/).count()).toBe(0);
    expect(await own(page)).toHaveLength(before);
    await rest(page);
    await button(page, 'Save without a place').click();
    await page.getByText(/^Kept: S\d/).waitFor();
    const [last, ...others] = (await own(page)).slice(before).reverse();
    expect(others).toEqual([]);
    expect(last?.type).toBe('sapling-protected');
    expect(last?.body).not.toHaveProperty('position');
  });
});
