// What the benches of the field page share: a logbook taken in, medians, and a row of the table.
import type { Page } from 'playwright-core';
import { writeExchangeLine } from '../../../src/log/entry/index.ts';
import type { Incoming } from '../../../src/log/store/index.ts';
import type { BenchRow } from '../../bench/row.ts';

const receivedAt = '2026-03-20T12:00:00.000Z';

/** Takes in a copy of an invented logbook and says who records. */
export async function settle(page: Page, logbook: readonly Incoming[]): Promise<void> {
  const lines = logbook.map(({ bytes, sealed }, position) =>
    writeExchangeLine({ bytes, sealed, receipt: { position, receivedAt } }),
  );
  await page.getByRole('button', { name: /Work by files/ }).click();
  const file = {
    name: 'copy.ndjson',
    mimeType: 'application/x-ndjson',
    buffer: Buffer.from(lines.join('\n')),
  };
  await page.setInputFiles('input[type=file]', file);
  await page.getByText(/Taken in: /).waitFor({ timeout: 120_000 });
  await page.getByLabel('Your name').fill('Ruth Calloway');
  await page.getByLabel('What this phone is called').fill("Ruth's phone");
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByRole('heading', { name: 'Today' }).waitFor();
}

export function median(numbers: readonly number[]): number {
  return numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? Number.NaN;
}

export function row(
  what: string,
  { ours, against, baseline, goal }: { ours: number; against: string; baseline: number; goal: number },
): BenchRow {
  const goalText = `< ${goal.toLocaleString('en')} ms`;
  return {
    what,
    measured: ours,
    unit: 'ms',
    against,
    baseline,
    ratio: ours / baseline,
    goal: goalText,
    met: ours < goal,
  };
}
