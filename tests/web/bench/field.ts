// The field page in a real browser on a slowed processor: how long until it can be worked with when there are many
// entries on the phone, and from a touch until the entry is kept.
import type { Page } from 'playwright-core';
import type { BenchRow } from '../../bench/row.ts';
import { woods } from '../../bench/woods.ts';
import { openSite, phone, type Site } from '../screens/page.ts';
import { benchPlan } from './plan.ts';
import { median, row, settle } from './setting.ts';

const entries = 5_000;
const slowed = 4;
const startGoal = 2_000;
const saveGoal = 100;
const rounds = 7;

export async function benchField(): Promise<BenchRow[]> {
  const site = await openSite();
  try {
    const { start, saved } = await measured(site, entries);
    // Not at the same time: pages that are slowed slow each other.
    const small = await measured(site, 2);
    const many = entries.toLocaleString('en');
    return [
      row(`field page until it can be worked with, ${many} entries, processor slowed ${slowed}×`, {
        ours: start,
        against: 'the same with 2 entries',
        baseline: small.start,
        goal: startGoal,
      }),
      row(`from the touch until a stem is kept, ${many} entries`, {
        ours: saved.ours,
        against: 'a bare durable write into IndexedDB',
        baseline: saved.bare,
        goal: saveGoal,
      }),
      ...(await benchPlan(site, entries)),
    ];
  } finally {
    await site.close();
  }
}

type Measured = Readonly<{ start: number; saved: { ours: number; bare: number } }>;

async function measured({ browser, address }: Site, count: number): Promise<Measured> {
  const context = await browser.newContext({ viewport: phone, hasTouch: true });
  const page = await context.newPage();
  await page.goto(address);
  await settle(page, woods(count));
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  const starts: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    // What the page does afterwards, such as asking for the logbook, is over.
    await page.waitForTimeout(2_000);
    starts.push(await untilToday(page));
  }
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  const saved = await untilKept(page);
  await context.close();
  return { start: median(starts), saved };
}

/** Milliseconds from the beginning of the navigation until the buttons of the day stand there and can be touched. */
async function untilToday(page: Page): Promise<number> {
  await page.reload({ waitUntil: 'commit' });
  await page.getByRole('button', { name: 'Mark' }).waitFor();
  return page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        // Once the page has come to rest a frame can be drawn: only then does it answer to a touch.
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now())));
      }),
  );
}

async function untilKept(page: Page): Promise<{ ours: number; bare: number }> {
  await page.getByRole('button', { name: 'Mark' }).click();
  await page.getByRole('button', { name: 'Cut' }).waitFor();
  const times = { ours: [] as number[], bare: [] as number[] };
  for (let round = 0; round < rounds; round += 1) {
    await page.waitForTimeout(1_000);
    times.ours.push(await page.evaluate(touchCut));
    times.bare.push(await page.evaluate(writeOnce));
  }
  return { ours: median(times.ours), bare: median(times.bare) };
}

/**
 * Runs in the page: touches the button and waits until the line of what was kept is another one. No function in it has
 * a name, for the names are looked up in what runs this and not in the page.
 */
function touchCut(): Promise<number> {
  const button = [...document.querySelectorAll('button')].find((each) => each.textContent?.startsWith('Cut'));
  const line = '[role=status] .notice';
  const before = document.querySelector(line)?.textContent;
  return new Promise((resolve) => {
    const start = performance.now();
    new MutationObserver((_, observer) => {
      const now = document.querySelector(line)?.textContent;
      if (now === before || now === undefined) return;
      observer.disconnect();
      resolve(performance.now() - start);
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
    button?.click();
  });
}

/** Runs in the page. */
function writeOnce(): Promise<number> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open('bench', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('rows');
    request.onerror = () => reject(request.error ?? new Error('no database'));
    request.onsuccess = () => {
      const start = performance.now();
      const transaction = request.result.transaction('rows', 'readwrite', { durability: 'strict' });
      transaction.objectStore('rows').put('x'.repeat(600), 'row');
      transaction.oncomplete = () => {
        resolve(performance.now() - start);
        request.result.close();
      };
    };
  });
}
