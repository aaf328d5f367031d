// How the screens look that are about one thing (a stem, a hazard, an entry), and those that come by themselves: the
// welcome and the stop card. The same questions as for the
// others; colours at dusk are held by pairs in contrast.test.ts.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { needs } from '../../needs.ts';
import { heldAgainstAxe, pushedSideways, tooSmall, unfoldAll } from './looks.ts';
import { type Opened, openPhone, openSite, ownEntries, type Site } from './page.ts';

async function looksRight(page: Page): Promise<void> {
  await page.waitForTimeout(120);
  await unfoldAll(page);
  expect(await tooSmall(page)).toEqual([]);
  expect(await pushedSideways(page)).toBe(0);
  expect(await heldAgainstAxe(page, 'everything')).toEqual([]);
}

const title = (page: Page, name: string | RegExp) => page.getByRole('heading', { level: 1, name });

describe.skipIf(!needs('chromium'))('On the field page', () => {
  let site: Site;
  let opened: Opened;
  let stem = '';
  let hazard = '';
  let entry = '';
  beforeAll(async () => {
    site = await openSite();
    opened = await openPhone(site);
    const { page } = opened;
    await page.getByRole('button', { name: /^B3/ }).click();
    await title(page, 'It is B3').waitFor();
    stem = new URLSearchParams(page.url().split('?')[1]).get('stem') ?? '';
  });
  afterAll(async () => {
    await opened.context.close();
    await site.close();
  });

  async function show(screen: string, about: Readonly<Record<string, string>>): Promise<void> {
    await opened.page.evaluate(
      (hash) => {
        location.hash = hash;
      },
      `/${screen}?${new URLSearchParams(about).toString()}`,
    );
    await opened.page.waitForTimeout(200);
    expect(await opened.page.locator('h1').textContent()).not.toBe('Today');
  }

  test('one stem: it is down, its rot, its tag', async () => {
    const { page } = opened;
    expect(stem).not.toBe('');
    await looksRight(page);
    for (const screen of ['rot', 'tag']) {
      await show(screen, { stem });
      await looksRight(page);
    }
  });

  test('a stem that was never marked', async () => {
    await show('felled', { stem: '019d5a00-0000-7000-8000-00000000abcd', new: 'yes' });
    await opened.page.getByRole('button', { name: 'It is down' }).waitFor();
    await looksRight(opened.page);
  });

  test('the stop card over a stem that hangs, and clearing it', async () => {
    const { page } = opened;
    await show('felled', { stem });
    await page.getByRole('button', { name: 'It hangs' }).click();
    const card = page.getByRole('alertdialog', { name: 'Stop.' });
    await card.waitFor();
    await looksRight(page);
    await card.getByRole('button', { name: 'I have read this' }).click();
    await show('cleared', { stem });
    await looksRight(page);
  });

  test('a hazard that is gone', async () => {
    const { page } = opened;
    await show('hazard', {});
    await page.getByRole('button', { name: 'hanging limb' }).click();
    await page.getByRole('button', { name: 'Note it' }).click();
    await page.getByText(/^Kept: /).waitFor();
    const noted = (await ownEntries(page)).findLast(({ type }) => type === 'hazard-noted');
    hazard = typeof noted?.body.hazard === 'string' ? noted.body.hazard : '';
    expect(hazard).not.toBe('');
    await show('gone', { hazard });
    await looksRight(page);
  });

  test('one entry, and striking it', async () => {
    const { page } = opened;
    await show('saved', {});
    await page
      .getByRole('button', { name: /hanging limb/i })
      .first()
      .click();
    await page.waitForFunction(() => location.hash.startsWith('#/entry'));
    entry = new URLSearchParams(page.url().split('?')[1]).get('entry') ?? '';
    expect(entry).not.toBe('');
    await looksRight(page);
    await show('strike', { entry });
    await looksRight(page);
  });

  test('a phone that is new: the welcome', async () => {
    const fresh = await openPhone(site, { isNew: true });
    await fresh.page.getByRole('button', { name: /Work by files/ }).waitFor();
    await looksRight(fresh.page);
    await fresh.context.close();
  });
});
