// How the screens look, on the real page in Chromium: nothing too small to touch with a glove, nothing to be pushed
// sideways, nothing that keeps anybody from reading or hearing it. Sizes: WCAG 2.2 asks for 24 px (2.5.8, AA) and 44 px
// (2.5.5, AAA); 56 px is this page's own. Accessibility rules: axe-core, WCAG 2.2 A and AA.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { screenNames } from '../../../src/web/field/screens/way.ts';
import { needs } from '../../needs.ts';
import { heldAgainstAxe, pushedSideways, tooSmall, unfoldAll } from './looks.ts';
import { desk, largePhone, type Opened, openPhone, openSite, phone, type Site } from './page.ts';

async function show(page: Page, screen: string): Promise<void> {
  await page.evaluate((name) => {
    location.hash = `/${name}`;
  }, screen);
  await page.locator('h1').waitFor();
  await page.waitForTimeout(120);
}

describe.skipIf(!needs('chromium'))('The field page', () => {
  let site: Site;
  beforeAll(async () => {
    site = await openSite();
  });
  afterAll(() => site.close());

  describe.each([
    ['a small phone', phone],
    ['a large phone', largePhone],
    ['a desk', desk],
  ])('on %s', (_where, size) => {
    let opened: Opened;
    beforeAll(async () => {
      opened = await openPhone(site, { size });
    });
    afterAll(() => opened.context.close());

    test.each(screenNames)(
      '%s: everything is large enough and nothing is cut off at the side',
      async (name) => {
        await show(opened.page, name);
        await unfoldAll(opened.page);
        expect(await tooSmall(opened.page)).toEqual([]);
        expect(await pushedSideways(opened.page)).toBe(0);
      },
    );

    test('no script failed and nothing was asked of another place', () => {
      expect(opened.errors.filter((error) => !error.includes('404'))).toEqual([]);
    });
  });

  describe.each([
    ['sun', false],
    ['dusk', true],
  ])('in the light of %s', (_light, dark) => {
    let opened: Opened;
    beforeAll(async () => {
      opened = await openPhone(site, { dark });
    });
    afterAll(() => opened.context.close());

    test.each(screenNames)('%s: axe finds nothing', async (name) => {
      await show(opened.page, name);
      await unfoldAll(opened.page);
      expect(await heldAgainstAxe(opened.page, dark ? 'colours' : 'everything')).toEqual([]);
    });

    test('the paper is light in sun and dark at dusk', async () => {
      const paper = await opened.page.evaluate(() => getComputedStyle(document.body).backgroundColor);
      expect(paper).toBe(dark ? 'rgb(21, 18, 13)' : 'rgb(247, 241, 227)');
    });
  });

  test('light is held at what Settings say, whatever the phone does', async () => {
    const { page, context } = await openPhone(site, { dark: true });
    await show(page, 'settings');
    await page.getByRole('button', { name: 'sun', exact: true }).click();
    await page.reload();
    await page.locator('h1').waitFor();
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe(
      'rgb(247, 241, 227)',
    );
    await context.close();
  });
});
