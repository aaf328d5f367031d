// The page in a browser and on paper: every printed page carries the tree head, the phone need not scroll
// sideways, and axe finds nothing serious.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  emergencyCard,
  harvestReport,
  renderEmergencyCard,
  renderHtml,
  renderTallySheet,
  usualColumns,
} from '../../src/reports/index.ts';
import { fold } from '../../src/stand/index.ts';
import { needs } from '../needs.ts';
import { pen, uuid } from '../stand/entries.ts';
import { asked, id, root } from './woods.ts';

const inFours = root.match(/.{4}/g)?.join(' ') ?? '';

async function smallReport(): Promise<string> {
  const { folded, options } = asked();
  return renderHtml(harvestReport(folded, options));
}

/** The small woods, and a group of so many stems that its table runs over several pages. */
async function longReport(): Promise<string> {
  const write = pen('2026-03-02T11:00:00-05:00');
  const many = Array.from({ length: 120 }, (_, index) =>
    write(
      'stem-marked',
      { stem: uuid(0xf0_0000 + index), mark: 'cut', tag: `B${index + 1}`, group: id.second },
      { id: uuid(0x2000 + index), seq: 100 + index },
    ),
  );
  const { folded, options } = asked({}, {}, many);
  return renderHtml(harvestReport(folded, options));
}

/** A card with as much on it as there will be, and a call that is overdue. */
function fullCard(): string {
  const write = pen('2026-03-20T09:00:00-04:00');
  const contacts = 'c'.repeat(64);
  const { folded, options } = asked({}, {}, [
    write(
      'emergency-card-set',
      {
        accessPoint: { how: 'fix', lat: '35.712345', lon: '-81.683456' },
        wayIn:
          'From the county road take the gravel lane past the red barn; second gate on the left, it stands open while anybody works. A car reaches the landing, an ambulance the gate.',
        callFirst: '911',
        nearestHelp: 'county hospital, 14 miles by road, 25 minutes',
        signal: 'at the landing, two bars; none in the cove below stake B; on the ridge everywhere',
        contacts,
      },
      { id: uuid(0x9001), seq: 901 },
    ),
    write(
      'call-expected',
      { due: { at: '2026-03-20T17:00:00-04:00', precision: 'minute' } },
      { id: uuid(0x9002), seq: 902 },
    ),
  ]);
  const names = new Map([
    ...options.names,
    [contacts, 'Ann 555-0142\nBo 555-0117\nCai 555-0164\nDee 555-0190'],
  ]);
  return renderEmergencyCard(
    emergencyCard(folded, { ...options, names, madeAt: '2026-03-20T18:30:00-04:00' }),
  );
}

/** The other end: nothing is recorded, so every part says what to record. */
function emptyCard(): string {
  const { options } = asked();
  return renderEmergencyCard(
    emergencyCard(fold([]), { ...options, positions: new Map(), head: { size: 0, root } }),
  );
}

describe.skipIf(!needs('chromium', 'pdftotext'))('in Chromium', () => {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'gapledger-report-'));
    browser = await chromium.launch({
      executablePath: programOnPath('chromium'),
      args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
    });
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  test.each(['Letter', 'A4'])('every page printed on %s carries size and root', async (format) => {
    const page = await browser.newPage();
    await page.setContent(await longReport());
    const file = join(folder, `${format}.pdf`);
    await page.pdf({ path: file, format });
    await page.close();
    const pages = textOf(file);
    expect(pages.length).toBeGreaterThan(5);
    for (const [index, text] of pages.entries()) {
      expect(text, `page ${index + 1}`).toContain(inFours);
      expect(text).toContain('Log of 154 entries, root');
      expect(text).toContain(`page ${index + 1} of ${pages.length}`);
    }
  });

  test.each(['Letter', 'A4'])(
    'a tally sheet is one page of %s, however many lines it has',
    async (format) => {
      const page = await browser.newPage();
      for (const rows of [5, 20, 30]) {
        await page.setContent(renderTallySheet({ columns: usualColumns.us, rows, program: 'gapledger' }));
        const file = join(folder, `tally-${rows}-${format}.pdf`);
        await page.pdf({ path: file, format, landscape: true });
        const pages = textOf(file);
        expect(pages, String(rows)).toHaveLength(1);
        expect(pages[0]).toContain('DBH (in)');
      }
      await page.close();
    },
  );

  test('a table that runs over pages repeats its head on each', async () => {
    const page = await browser.newPage();
    await page.setContent(await longReport());
    const file = join(folder, 'long.pdf');
    await page.pdf({ path: file, format: 'Letter' });
    await page.close();
    const withStems = textOf(file).filter((text) => /^\s*B\d+ /m.test(text));
    expect(withStems.length).toBeGreaterThan(1);
    for (const text of withStems) expect(text).toMatch(/Stem\s+Species\s+DBH\s+Mark/);
  });

  test.each(['A5', 'A4', 'Letter'])(
    'the emergency card is one page of %s, with all that is on it',
    async (format) => {
      for (const [name, card] of [
        ['full', fullCard()],
        ['empty', emptyCard()],
      ] as const) {
        const page = await browser.newPage();
        await page.setContent(card);
        const file = join(folder, `card-${name}-${format}.pdf`);
        await page.pdf({ path: file, format });
        await page.close();
        const pages = textOf(file);
        expect(pages, name).toHaveLength(1);
        expect(pages[0]).toContain('Call first');
        expect(pages[0]?.replaceAll(/\s+/g, ' ')).toContain('gapledger verify --since');
      }
    },
  );

  test('the emergency card prints its coordinates in lines of type 4 mm high and more on A4', async () => {
    const page = await browser.newPage();
    await page.setContent(fullCard());
    const file = join(folder, 'card-size.pdf');
    await page.pdf({ path: file, format: 'A4' });
    await page.close();
    const boxes = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' });
    const [, top, bottom] = /yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">42\.741/.exec(boxes) ?? [];
    // A point is 1/72 in, an inch 25.4 mm.
    expect(((Number(bottom) - Number(top)) / 72) * 25.4).toBeGreaterThan(4);
  });

  test.each([390, 1280])(
    'the emergency card at %i px: nothing sideways, axe finds nothing serious',
    async (width) => {
      const context = await browser.newContext({ viewport: { width, height: 800 } });
      for (const card of [fullCard(), emptyCard()]) {
        const page = await context.newPage();
        await page.setContent(card);
        expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
          width,
        );
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id: rule, nodes }) => `${rule}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
        await page.close();
      }
      await context.close();
    },
    180_000,
  );

  test.each([390, 1280])('at %i px wide nothing has to be scrolled sideways', async (width) => {
    const page = await browser.newPage({ viewport: { width, height: 800 } });
    await page.setContent(await longReport());
    const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
    await page.close();
    expect(wide).toBeLessThanOrEqual(width);
  });

  test.each([390, 1280])(
    'axe finds nothing serious at %i px',
    async (width) => {
      const context = await browser.newContext({ viewport: { width, height: 800 } });
      const page = await context.newPage();
      await page.setContent(await smallReport());
      const { violations, passes } = await new AxeBuilder({ page }).analyze();
      await context.close();
      expect(violations.map(({ id: rule, nodes }) => `${rule}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
      expect(passes.length).toBeGreaterThan(10);
    },
    180_000,
  );
});

function programOnPath(name: string): string {
  const found = (process.env.PATH ?? '')
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find((path) => existsSync(path));
  if (found === undefined) throw new Error(`${name} is not on PATH`);
  return found;
}

/** The text of each page. */
function textOf(file: string): string[] {
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  return text.split('\f').filter((page) => page.trim() !== '');
}
