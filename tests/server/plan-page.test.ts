// The plan page: a person settles an aim, plans again and adopts, in Chromium and without a script. The worked case "three in line"
// of the model (docs/felling-model.md) says what the order has to be: with all three aimed along the line, C B A hangs up with a
// chance of 0, and no other order does.
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ASSUMPTION_NAMES, ASSUMPTIONS, cautions } from '../../src/felling/index.ts';
import { createApp, type Served, serve } from '../../src/server/index.ts';
import { needs, programOnPath } from '../needs.ts';
import { type House, now } from './desk.ts';
import { houseInLine, unmeasured } from './in-line.ts';

let woods: House;
let address: string;
beforeEach(async () => {
  woods = await houseInLine('A', 'B', 'C');
  const [, found] = /href="(\/groups\/[^"]+\/plan)"/.exec(await (await woods.ask('/')).text()) ?? [];
  address = found ?? '';
});
afterEach(() => woods.end());

const along = 'aim.A=0+true&aim.B=0+true&aim.C=0+true';

async function shown(query = '', status = 200): Promise<string> {
  const answer = await woods.ask(`${address}${query}`);
  expect(answer.status, query).toBe(status);
  return answer.text();
}

/** Stems of the table of the order, from above. */
function order(page: string): string[] {
  const [, table = ''] = /<section id="order">([\s\S]*?)<\/section>/.exec(page) ?? [];
  return [...table.matchAll(/rowheader">([^<]+)</g)].map(([, label]) => label ?? '');
}

describe('the plan page', () => {
  it('is linked from the start page for a group with something to fell, and not for one that is closed', async () => {
    expect(address).toMatch(/^\/groups\/.+\/plan$/);
    for (const stem of ['C', 'B', 'A']) await woods.record('stem-felled', { stem, came: 'down' });
    await woods.record('opening-closed', { group: 'G1' }, { answers: ['anyway'] });
    expect(await (await woods.ask('/')).text()).not.toContain('href="/groups/');
  });

  it('shows the cautions before the order, and never calls anything safe', async () => {
    const page = await shown(`?${along}`);
    const places = [cautions.lead, 'id="adopt', 'id="order"', 'id="map"', 'id="settle"', 'id="risks"'].map(
      (text) => page.indexOf(text),
    );
    expect(places).not.toContain(-1);
    expect(places[0]).toBeLessThan(places[2] ?? 0);
    for (const { text } of cautions.points) expect(page).toContain(text);
    expect(page).not.toMatch(/\bsafe/i);
  });

  it('fells the last in line first when all are aimed along the line', async () => {
    expect(order(await shown(`?${along}`))).toEqual(['C', 'B', 'A']);
  });

  it('has the same plan as the address for programs, and links to it', async () => {
    const page = await shown(`?${along}&wedges=yes`);
    const [, data = ''] = /href="(\/api\/groups\/[^"]+\/plan\?[^"]+)">The plan as data/.exec(page) ?? [];
    const { falls, plan } = (await (await woods.ask(data.replaceAll('&amp;', '&'))).json()) as {
      falls: { label: string }[];
      plan: string;
    };
    expect(falls.map(({ label }) => label)).toEqual(['C', 'B', 'A']);
    expect(page).toContain(`value="${plan}"`);
  });

  it('links to map, worksheets and data that are there', async () => {
    const page = await shown(`?${along}`);
    const links = [...page.matchAll(/href="(\/[^"]+)"/g)].map(([, link]) =>
      (link ?? '').replaceAll('&amp;', '&'),
    );
    expect(links.filter((link) => link.includes('/plan/map?')).length).toBe(2);
    expect(links.filter((link) => /\/plan\/[^/?]+\?aim/.test(link)).length).toBe(3);
    for (const link of new Set(links)) expect((await woods.ask(link)).status, link).toBe(200);
  });

  it('tells what to measure first where that is asked for, in the words of the command line', async () => {
    expect(await shown(`?${along}`)).not.toContain('Measure first');
    const page = await shown(`?${along}&measure-next=yes`);
    expect(page).toContain('Measure first');
    expect(page).toContain('measure-next=yes&amp;as=pdf');
  }, 60_000);

  it('leaves what is empty or usual out of its address', async () => {
    const { directionError } = ASSUMPTIONS;
    const answer = await woods.ask(
      `${address}?aim.A=95+true&place.A=&wind=&notch=open+face&assume.directionError=${directionError.value}&assume.hangUpLimit=0.2`,
    );
    expect(answer.status).toBe(303);
    expect(answer.headers.get('location')).toBe(`${address}?aim.A=95+true&assume.hangUpLimit=0.2`);
  });

  it('has a field for every assumption, marked with what it rests on', async () => {
    const page = await shown();
    for (const name of ASSUMPTION_NAMES)
      expect(page).toContain(`name="assume.${name}" value="${ASSUMPTIONS[name].value}"`);
    expect(page.match(/Our own guess, no source\./g)?.length).toBe(
      ASSUMPTION_NAMES.filter((name) => ASSUMPTIONS[name].basis === 'guess').length,
    );
    expect(page).toContain('US 29 CFR 1910.266');
  });

  it.each([
    ['aim.A=95', 'aim.A', '95', 'is no azimuth'],
    ['place.B=0', 'place.B', '0', 'place in the order'],
    ['place.A=1&place.B=1', 'place.A', '1', 'both settled at place 1'],
    ['before.A=Z9', 'before.A', 'Z9', 'no stem Z9'],
    ['before.A=B&before.B=A', 'before.A', 'B', 'before the other'],
    ['slope=steep&downhill=210+mag', 'slope', 'steep', 'a slope in percent'],
    ['slope=20', 'downhill', '', 'which way is down'],
    ['wind=breezy', 'wind', 'breezy', 'metres a second'],
    ['people=somewhere', 'people', 'somewhere', 'not known where these people would be'],
    ['notch=birdsmouth', 'notch', undefined, 'birdsmouth'],
    ['assume.directionError=900', 'assume.directionError', '900', 'out of range'],
    ['assume.directionError=lots', 'assume.directionError', 'lots', 'a number'],
  ])('%s: says what is wrong beside its field and keeps what was typed', async (query, field, kept, says) => {
    const page = await shown(`?${query}`, 400);
    const [, input = '', beside = ''] =
      new RegExp(`name="${field.replace('.', '\\.')}"([^>]*)>[\\s\\S]*?<p class="wrong"[^>]*>([^<]*)<`).exec(
        page,
      ) ?? [];
    expect(input).toContain('aria-invalid="true"');
    if (kept !== undefined) expect(input).toContain(`value="${kept}"`);
    expect(beside.replaceAll('&quot;', '"')).toContain(says);
    expect(order(page)).toEqual([]);
  });

  it('names a field that is none, as of a stem that was felled since', async () => {
    await woods.record('stem-felled', { stem: 'C', came: 'down' });
    const page = await shown('?aim.C=0+true', 400);
    expect(page).toContain('“aim.C” with “0 true” is no field here');
    expect(order(page).sort()).toEqual(['A', 'B']);
  });

  it('says why there is no plan where the record does not give one, and is no error of who asked', async () => {
    await woods.record('stem-marked', unmeasured);
    expect(await shown()).toContain('Measure it');
    expect((await woods.ask('/groups/G9/plan')).status).toBe(400);
  });

  it('shows a stop, and what ended the adopted plan, before everything that is computed anew', async () => {
    await adoptShown(`?${along}`);
    expect(await shown()).toContain('As recorded, nothing has ended it.');
    await woods.record('stem-felled', { stem: 'C', came: 'hung-up', hungOn: 'B' });
    const page = await shown();
    const stop = page.indexOf('The plan that was adopted no longer holds. Stop.');
    expect(stop).toBeGreaterThan(0);
    expect(stop).toBeLessThan(page.indexOf('id="order"'));
    expect(page).toContain('C hung up.');
    expect(page.indexOf('C is hung up.')).toBeLessThan(page.indexOf(cautions.lead));
  });

  it('gives a stem that is set aside no worksheet', async () => {
    await woods.record('stem-felled', { stem: 'C', came: 'hung-up', hungOn: 'B' });
    const answer = await woods.ask(`${address}/B`);
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain('No worksheet: it is set aside');
    expect((await woods.ask(`${address}/Z9`)).status).toBe(400);
  });
});

/** Sends the form that adopts, as a browser does. */
async function adoptShown(
  query: string,
  change: Record<string, string> = {},
  headers: Record<string, string> = {},
) {
  const page = await shown(query);
  const hidden = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(page)?.[1] ?? '';
  return woods.ask(`${address}${query}`, {
    method: 'POST',
    body: new URLSearchParams({ plan: hidden('plan'), when: hidden('when'), ...change }),
    headers,
  });
}

describe('adopting on the plan page', () => {
  it('records the order and aims that it showed', async () => {
    const before = await woods.log.head();
    const answer = await adoptShown(`?${along}`);
    expect(answer.status, await answer.clone().text()).toBe(303);
    expect(answer.headers.get('location')).toBe(`${address}?${along}#adopted`);
    expect((await woods.log.head()).size).toBe(before.size + 1);
    const stand = JSON.stringify(await (await woods.ask('/api/events?from=0&limit=100')).json());
    expect(stand).toContain('felling-plan-adopted');
    expect(woods.remembered()).toBe(1);
  });

  it.each([
    ['the record has changed since', 409, {}, {}],
    ['another plan is named', 409, { plan: '0'.repeat(64) }, {}],
    ['the time is none', 409, { when: 'yesterday' }, {}],
    ['a page of another site sends it', 403, {}, { origin: 'http://elsewhere.example' }],
    ['it is no form', 415, {}, { 'content-type': 'text/plain' }],
  ])('records nothing where %s', async (why, status, change, headers) => {
    const query = `?${along}`;
    const page = await shown(query);
    const hidden = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(page)?.[1] ?? '';
    const body = new URLSearchParams({ plan: hidden('plan'), when: hidden('when'), ...change });
    if (why.startsWith('the record')) await woods.record('stem-felled', { stem: 'C', came: 'down' });
    const before = await woods.log.head();
    const target = why.startsWith('the record') ? '?aim.A=0+true&aim.B=0+true' : query;
    const answer = await woods.ask(`${address}${target}`, { method: 'POST', body, headers });
    expect(answer.status).toBe(status);
    expect(await answer.text()).toMatch(/[Nn]othing was recorded|by the form of this page/);
    expect(await woods.log.head()).toEqual(before);
  });

  it('is not offered where the logbook can only be read, and says so', async () => {
    const log = { ...woods.log, facts: () => ({ ...woods.log.facts(), readOnly: true }) };
    const app = createApp({ desk: { ...woods.desk, log }, program: 'gapledger 0.1.0', now: () => now });
    const page = await (await app.request(`${address}?${along}`)).text();
    expect(page).toContain('This logbook can only be read here');
    expect(page).not.toContain('method="post"');
    expect((await app.request(`${address}?${along}`, { method: 'POST' })).status).toBe(403);
  });

  it('is by who fells by it: somebody the logbook knows, named in a field where nobody sits at the desk', async () => {
    await woods.record('person-named', { name: 'Bo Weaver' });
    const { person: _nobody, ...desk } = woods.desk;
    const app = createApp({ desk, program: 'gapledger 0.1.0', now: () => now });
    const page = async (by: string) => app.request(`${address}?${along}${by}`);
    const send = async (by: string) => {
      const text = await (await page(by)).text();
      const hidden = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(text)?.[1] ?? '';
      return app.request(`${address}?${along}${by}`, {
        method: 'POST',
        body: new URLSearchParams({ plan: hidden('plan'), when: hidden('when') }),
      });
    };
    const unknown = await page('&by=Nobody+Known');
    expect(unknown.status).toBe(400);
    expect(await unknown.text()).toMatch(/name="by" value="Nobody Known"[^>]*aria-invalid="true"/);
    const refused = await send('');
    expect(refused.status).toBe(422);
    expect(await refused.text()).toContain('it is not known who adopts the plan');
    expect((await send('&by=Bo+Weaver')).status).toBe(303);
  });

  it('is computed with what was recorded for who fells by it, which is what stands in the fields', async () => {
    await woods.record('felling-default-set', {
      person: 'Ann Weaver',
      assumption: 'directionError',
      value: '9',
      reason: 'measured over a winter',
    });
    const page = await shown(`?${along}`);
    expect(page).toContain('name="assume.directionError" value="9"');
    expect(page).toContain('Recorded for who fells by it as 9: measured over a winter');
    // What is usual for everybody else can be typed, and stays in the address.
    const { value } = ASSUMPTIONS.directionError;
    expect(await shown(`?${along}&assume.directionError=${value}`)).toContain(
      `name="assume.directionError" value="${value}"`,
    );
    const dropped = await woods.ask(`${address}?${along}&assume.directionError=9`);
    expect(dropped.headers.get('location')).toBe(`${address}?${along}`);
  });
});

describe.skipIf(!needs('chromium'))('in Chromium', () => {
  let browser: Browser;
  let served: Served;
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: programOnPath('chromium'),
      args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
    });
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    served = await serve({ app: woods.app, port: 0 });
  });
  afterEach(() => served.close());

  const url = (query = '') => new URL(`${address}${query}`, served.url).href;
  const rows = (page: Page) => page.locator('#order tbody th').allTextContents();

  it('an aim is fixed, the plan made again, and adopted, with scripts switched off', async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(served.url);
    await page.getByRole('link', { name: 'Plan G1' }).click();
    for (const stem of ['A', 'B', 'C'])
      await page.getByLabel(`Aim of ${stem}`, { exact: true }).fill('0 true');
    await page.getByLabel('Wedges are at hand').check();
    await page.getByRole('button', { name: 'Plan again' }).click();
    expect(await rows(page)).toEqual(['C', 'B', 'A']);
    expect(new URL(page.url()).search).toBe(`?${along}&wedges=yes`);
    expect(await page.locator('#order tbody tr').first().locator('td').allTextContents()).toContain('0.0°');

    // Another aim for C: the first row shows it, within the 2.5° that aims lie apart.
    await page.getByLabel('Aim of C', { exact: true }).fill('20 true');
    await page.getByRole('button', { name: 'Plan again' }).click();
    const row = page.locator('#order tbody tr', { has: page.locator('th', { hasText: /^C$/ }) });
    const aim = Number.parseFloat((await row.getByRole('cell').nth(1).textContent()) ?? '');
    expect(Math.abs(aim - 20)).toBeLessThanOrEqual(2.5);
    expect(await page.getByLabel('Aim of C', { exact: true }).inputValue()).toBe('20 true');

    await page.getByRole('button', { name: 'Adopt this plan' }).click();
    expect(await page.locator('#adopted').textContent()).toContain('nothing has ended it');
    expect((await woods.log.head()).size).toBe(8);
    await context.close();
  }, 120_000);

  it('an aim without its north is answered beside its field', async () => {
    const page = await browser.newPage();
    await page.goto(url());
    await page.getByLabel('Aim of B', { exact: true }).fill('95');
    await page.getByRole('button', { name: 'Plan again' }).click();
    const field = page.getByLabel('Aim of B', { exact: true });
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await field.inputValue()).toBe('95');
    expect(await page.locator('.field', { has: field }).locator('.wrong').textContent()).toContain('95 mag');
    await page.close();
  }, 60_000);

  const sizes = [
    { width: 390, height: 844 },
    { width: 1280, height: 900 },
  ];
  it.each(sizes.flatMap((size) => ['?aim.A=95', '?wedges=yes'].map((query) => ({ ...size, query }))))(
    'at $width px with "$query" axe finds nothing serious, nothing is too wide and the console is silent',
    async ({ query, ...viewport }) => {
      const context = await browser.newContext({ viewport });
      const page = await context.newPage();
      const said: string[] = [];
      page.on('console', (message) => said.push(message.text()));
      await page.goto(url(query), { waitUntil: 'networkidle' });
      await page.evaluate('for (const one of document.querySelectorAll("details")) one.open = true');
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
      expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
        viewport.width,
      );
      // A browser writes down by itself that an address was answered with 400.
      expect(said.filter((text) => !text.includes('400 (Bad Request)'))).toEqual([]);
      const shots = process.env.GAPLEDGER_SCREENSHOTS;
      if (shots)
        await page.screenshot({
          path: join(shots, `plan${query.replaceAll(/\W/g, '-')}-${viewport.width}.png`),
          fullPage: true,
        });
      await context.close();
    },
    120_000,
  );
});
