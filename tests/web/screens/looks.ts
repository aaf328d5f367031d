// What is asked of how a screen looks: large enough for a glove, nothing cut off at the side, nothing that axe finds.
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

const smallest = 56;

/** What can be touched and is in sight, smaller than it should be; links in a sentence and files' inputs are not asked. */
export async function tooSmall(page: Page): Promise<string[]> {
  return page.evaluate((least) => {
    const touched = document.querySelectorAll<HTMLElement>(
      'button, a[href], input, select, textarea, summary, label.act',
    );
    return [...touched]
      .filter((one) => one.checkVisibility() && !one.classList.contains('only-heard'))
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.height < least || box.width < least)
      .map(({ one, box }) => `${one.outerHTML.slice(0, 80)}: ${box.width} × ${box.height}`);
  }, smallest);
}

export async function pushedSideways(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

export async function unfoldAll(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('details')) one.open = true;
  });
  await page.evaluate(() => {
    for (const one of document.querySelectorAll<HTMLElement>('.number-shown[aria-expanded="false"]'))
      one.click();
  });
  await page.waitForTimeout(100);
}

/**
 * What axe-core finds by WCAG 2.2 A and AA, and its own advice.
 * @param only - `colours` asks for contrast alone: nothing else changes with the light
 */
export async function heldAgainstAxe(page: Page, only: 'everything' | 'colours'): Promise<string[]> {
  // What the foot half covers is counted as small; at the end of the page it covers nothing.
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  const axe = new AxeBuilder({ page });
  const asked =
    only === 'colours'
      ? axe.withRules(['color-contrast'])
      : axe.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']);
  const { violations } = await asked.analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}
