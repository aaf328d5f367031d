// The felling plan in a real browser: how long from the touch until the next stem stands there, and for how long at a stretch the
// page cannot be touched meanwhile. The page's own thread is slowed as in the other benches; browsers do not slow the thread
// that plans with it, so that on a phone the plan takes longer than here.
import type { Page } from 'playwright-core';
import type { BenchRow } from '../../bench/row.ts';
import { groupToPlan, woods } from '../../bench/woods.ts';
import { phone, type Site } from '../screens/page.ts';
import { median, row, settle } from './setting.ts';

const stems = 12;
const slowed = 4;
const rounds = 5;
const shownGoal = 3_000;
const stuckGoal = 300;

export async function benchPlan({ browser, address }: Site, entries: number): Promise<BenchRow[]> {
  const context = await browser.newContext({ viewport: phone, hasTouch: true });
  const page = await context.newPage();
  const many = await planned(page, address, entries);
  await context.close();
  const other = await browser.newContext({ viewport: phone, hasTouch: true });
  const few = await planned(await other.newPage(), address, 3);
  await other.close();
  const what = `${stems} stems, ${entries.toLocaleString('en')} entries, processor slowed ${slowed}×`;
  const against = 'the same with 16 entries';
  return [
    row(`felling plan shown on the field page, ${what}`, {
      ours: many.shown,
      against,
      baseline: few.shown,
      goal: shownGoal,
    }),
    row(`longest that the page stands still for it, ${what}`, {
      ours: many.stuck,
      against,
      baseline: few.stuck,
      goal: stuckGoal,
    }),
  ];
}

type Planned = Readonly<{ shown: number; stuck: number }>;

async function planned(page: Page, address: string, before: number): Promise<Planned> {
  await page.goto(address);
  await settle(page, [...woods(before), ...groupToPlan('P', stems, before)]);
  await page.getByRole('button', { name: /Group in hand/ }).click();
  await page.getByRole('button', { name: /^P\b/ }).click();
  await page.getByRole('button', { name: /^Plan the felling/ }).waitFor();
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  const shown: number[] = [];
  const stuck: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    await page.waitForTimeout(1_000);
    const times = await page.evaluate(touchPlan);
    shown.push(times.shown);
    stuck.push(times.stuck);
    await page.getByRole('button', { name: 'Back to today' }).click();
  }
  return { shown: median(shown), stuck: median(stuck) };
}

/** Runs in the page, with no function that has a name: those would be looked up elsewhere. */
function touchPlan(): Promise<{ shown: number; stuck: number }> {
  const button = [...document.querySelectorAll('button')].find((each) =>
    each.textContent?.startsWith('Plan the felling'),
  );
  return new Promise((resolve) => {
    const start = performance.now();
    let [last, stuck] = [start, 0];
    const timer = setInterval(() => {
      stuck = Math.max(stuck, performance.now() - last);
      last = performance.now();
      if (document.querySelector('#plan-next') === null) return;
      clearInterval(timer);
      resolve({ shown: last - start, stuck });
    }, 4);
    button?.click();
  });
}
