// The work itself, on the real page in Chromium, without a server: what is touched becomes the entry that the log
// keeps. Bodies are held against the schemas of the kinds by the engine; here the values are looked at.
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { needs } from '../../needs.ts';
import { type Opened, openPhone, openSite, ownEntries, type Site } from './page.ts';

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const heading = (page: Page, name: string) => page.getByRole('heading', { level: 1, name });

async function type(page: Page, field: string | RegExp, digits: string): Promise<void> {
  await button(page, field).click();
  const pad = page.locator('.keypad');
  for (const digit of digits)
    await pad.getByRole('button', { name: digit === '.' ? 'Point' : digit, exact: true }).click();
  await pad.getByRole('button', { name: 'Done' }).click();
}

describe.skipIf(!needs('chromium'))('On the field page', () => {
  let site: Site;
  let opened: Opened;
  beforeAll(async () => {
    site = await openSite();
  });
  afterAll(() => site.close());
  beforeEach(async () => {
    opened = await openPhone(site);
  });
  afterEach(() => opened.context.close());

  const last = async () => (await ownEntries(opened.page)).at(-1);

  test('two touches mark a stem with the next tag, for the group in hand', async () => {
    const { page } = opened;
    await button(page, 'Mark').click();
    await button(page, 'Cut').click();
    await page.getByText('Kept: B10 marked to be cut').waitFor();
    const entry = await last();
    expect(entry?.type).toBe('stem-marked');
    expect(entry?.body).toMatchObject({ tag: 'B10', mark: 'cut', group: expect.any(String) as string });
    await button(page, /Next tag: B11/).waitFor();
  });

  test('species and tag go on by themselves, DBH begins anew, with its unit', async () => {
    const { page } = opened;
    await button(page, 'Mark').click();
    await button(page, 'red maple').click();
    await type(page, /^DBH/, '14.2');
    await button(page, 'Cut').click();
    await page.getByText(/Kept: B10 .*red maple, DBH 14.2 in/).waitFor();
    expect((await last())?.body).toMatchObject({
      species: { code: 'ACRU' },
      dbh: { text: '14.2 in', value: '14.2', unit: 'in' },
    });
    await page.waitForTimeout(800);
    await button(page, 'Leave').click();
    await page.getByText(/Kept: B11 marked to stay/).waitFor();
    const body = (await last())?.body;
    expect(body).toMatchObject({ tag: 'B11', mark: 'leave', species: { code: 'ACRU' } });
    expect(body).not.toHaveProperty('dbh');
  });

  test('a glove that touches twice saves once', async () => {
    const { page } = opened;
    await button(page, 'Mark').click();
    await button(page, 'Cut').dblclick();
    await page.waitForTimeout(400);
    const marks = (await ownEntries(page)).filter(({ type }) => type === 'stem-marked');
    expect(marks).toHaveLength(1);
  });

  test('a draft outlives a reload of the page', async () => {
    const { page } = opened;
    await button(page, 'Mark').click();
    await type(page, /^DBH/, '9.5');
    await page.getByText('More about this stem').click();
    await page.getByLabel('Why').fill('dead top');
    await page.reload();
    await button(page, /^DBH: 9.5 in/).waitFor();
    await page.getByText('More about this stem').click();
    expect(await page.getByLabel('Why').inputValue()).toBe('dead top');
  });

  test('what cannot be kept is named beside its field with the remedy, and kept as typed', async () => {
    const { page } = opened;
    await button(page, 'Mark').click();
    await page.getByText('More about this stem').click();
    await page
      .getByRole('group', { name: 'What it stays for' })
      .getByRole('button', { name: 'cavity' })
      .click();
    await button(page, 'Cut').click();
    await page
      .getByRole('group', { name: 'What it stays for' })
      .getByText(/What it stays for: "cavity" cannot be taken; only a leave tree has a purpose/)
      .waitFor();
    expect((await ownEntries(page)).some(({ type }) => type === 'stem-marked')).toBe(false);
    await page.waitForTimeout(800);
    await button(page, 'Leave').click();
    await page.getByText(/Kept: B10 marked to stay/).waitFor();
    expect((await last())?.body).toMatchObject({ purpose: 'cavity' });
  });

  test('a stem that hangs shows the stop card before anything else, until it is read, also after a reload', async () => {
    const { page } = opened;
    await button(page, /^B3/).click();
    await heading(page, 'It is B3').waitFor();
    await button(page, 'It hangs').click();
    const card = page.getByRole('alertdialog', { name: 'Stop.' });
    await card.getByText('It hangs in another tree').waitFor();
    expect(await page.locator('[inert] h1').count()).toBe(1);
    expect((await last())?.body).toMatchObject({ came: 'hung-up' });
    expect((await last())?.body).not.toHaveProperty('lay');
    await page.reload();
    await card.getByText('It hangs in another tree').waitFor();
    await card.getByRole('button', { name: 'I have read this' }).click();
    await button(page, /^B3 hangs/).waitFor();
    expect(await card.count()).toBe(0);
  });

  test('a lay off its aim is kept as what was read, and far off it shows the stop card', async () => {
    const { page } = opened;
    await button(page, /^B3/).click();
    await button(page, 'Off the aim by').click();
    await type(page, /^Off by/, '25');
    await button(page, 'to the right').click();
    await button(page, /^It was aimed at/).click();
    for (const digit of ['3', '5', '0'])
      await page.locator('.keypad').getByRole('button', { name: digit, exact: true }).click();
    await page.locator('.keypad').getByRole('button', { name: 'Done' }).click();
    await button(page, 'It is down').click();
    await page.getByRole('alertdialog').getByText('It lies far off the line').waitFor();
    // 350° and 25° to the right is 375°, which is 15°.
    expect((await last())?.body).toMatchObject({
      came: 'down',
      lay: { text: '25 deg right of 350 mag', value: '15', reference: 'mag' },
      aimed: { text: '350 mag' },
    });
  });

  test('a lay that nobody measured is left out, and the stump comes next: looked, none is one touch', async () => {
    const { page } = opened;
    await button(page, /^B3/).click();
    await button(page, 'It is down').click();
    await heading(page, 'Rot at the stump').waitFor();
    expect((await last())?.body).not.toHaveProperty('lay');
    await button(page, /^Looked, none/).click();
    await page.getByText(/Kept: stump of B3: looked, no decay/).waitFor();
    expect((await last())?.body).toMatchObject({ found: 'none' });
  });

  test('"as aimed" is what an eye saw, and is kept apart from a lay that was measured', async () => {
    const { page } = opened;
    await button(page, /^B3/).click();
    await button(page, 'As aimed, by eye').click();
    await button(page, 'It is down').click();
    await heading(page, 'Rot at the stump').waitFor();
    const body = (await last())?.body;
    expect(body).toMatchObject({ came: 'down', asAimed: true });
    expect(body).not.toHaveProperty('lay');
  });

  test('rot that nobody had noted shows the stop card', async () => {
    const { page } = opened;
    await button(page, /^B2/).click();
    await button(page, 'It is down').click();
    await page.getByRole('button', { name: 'rot', exact: true }).click();
    await type(page, /^How far up the butt/, '3.5');
    await button(page, 'Save with these figures').click();
    await page.getByRole('alertdialog').getByText('There is more rot').waitFor();
    expect((await last())?.body).toMatchObject({ found: 'rot', upTheButt: { text: '3.5 ft' } });
  });

  test('a stem that was never marked is recorded with what is known of it', async () => {
    const { page } = opened;
    await button(page, 'It is down').click();
    await button(page, 'A stem that was never marked').click();
    await page.getByLabel('Tag').fill('U1');
    await button(page, 'It is down').click();
    await heading(page, 'Rot at the stump').waitFor();
    expect(await last()).toMatchObject({ type: 'stem-felled', body: { tag: 'U1', came: 'down' } });
  });

  test('a sapling is checked by one touch, and is then open no more', async () => {
    const { page } = opened;
    await button(page, /not checked/).click();
    await page.getByRole('group', { name: /s6/ }).getByRole('button', { name: 'bent' }).click();
    await page.getByText(/Kept: s6 bent/).waitFor();
    expect(await last()).toMatchObject({ type: 'sapling-checked', body: { condition: 'bent' } });
    await button(page, 'Back to today').click();
    await heading(page, 'Today').waitFor();
    expect(await button(page, /not checked/).count()).toBe(0);
  });

  test('what was saved last is struck with a reason, in two places, and the stem stands again', async () => {
    const { page } = opened;
    await button(page, /^B3/).click();
    await button(page, 'It is down').click();
    await button(page, 'Take it back').click();
    await button(page, 'Strike it').click();
    await page
      .getByText(/choose why it is struck/)
      .first()
      .waitFor();
    await button(page, 'wrong stem').click();
    await page.waitForTimeout(800);
    await button(page, 'Strike it').click();
    await button(page, /^B3/).waitFor();
    expect(await last()).toMatchObject({ type: 'entry-struck', body: { reason: 'wrong stem' } });
    await button(page, 'Other work').click();
    await button(page, 'What was recorded').click();
    await button(page, /B3 felled, down, lay not measured.*struck/).waitFor();
  });

  test('an opening is closed only after a second yes while something is open', async () => {
    const { page } = opened;
    await button(page, 'Other work').click();
    await button(page, 'Close the opening').click();
    await page.getByText('2 stems are marked to be cut and standing').waitFor();
    await button(page, 'Close it').click();
    await page
      .getByText(/say that it may be closed/)
      .first()
      .waitFor();
    await button(page, 'Yes').first().click();
    await page.waitForTimeout(800);
    await button(page, 'Close it').click();
    await heading(page, 'Today').waitFor();
    expect(await last()).toMatchObject({ type: 'opening-closed' });
  });

  test('metric is typed and kept as centimetres', async () => {
    const { page } = opened;
    await button(page, 'Other work').click();
    await button(page, 'Settings').click();
    await button(page, 'centimetres and metres').click();
    await button(page, 'Back to today').click();
    await button(page, 'Mark').click();
    await type(page, /^DBH/, '36');
    await button(page, 'Leave').click();
    await page.getByText(/Kept: B10/).waitFor();
    expect((await last())?.body).toMatchObject({ dbh: { text: '36 cm', value: '36', unit: 'cm' } });
  });

  test('a hazard, a note, a lost tag and a stake become their entries', async () => {
    const { page } = opened;
    await button(page, 'Other work').click();
    await button(page, 'Note a hazard').click();
    await button(page, 'Note it').click();
    await page.getByText(/What it is: say what it is/).waitFor();
    await button(page, 'dead top').click();
    await page.waitForTimeout(800);
    await button(page, 'Note it').click();
    await button(page, /^dead top/).waitFor();
    expect(await last()).toMatchObject({ type: 'hazard-noted', body: { what: 'dead-top' } });

    await button(page, 'Other work').click();
    await button(page, 'Write a note').click();
    await page.getByLabel('Note').fill('wind rising');
    await button(page, 'Keep it').click();
    await page.getByText('Kept: wind rising').waitFor();

    await button(page, 'Other work').click();
    await button(page, 'A tag is lost').click();
    await button(page, /^B3/).click();
    await button(page, 'The tag is gone').click();
    await page.getByText('Kept: tag of B3 lost').waitFor();

    await button(page, 'Other work').click();
    await button(page, 'Set a stake').click();
    await button(page, 'It is set').click();
    await page.getByText(/Kept: stake/).waitFor();
    expect(await last()).toMatchObject({ type: 'stake-set' });
  });

  test('a call home is expected, shown when overdue, and ended only by a second touch', async () => {
    const { page } = opened;
    await page.clock.install({ time: new Date() });
    await button(page, 'Emergency').click();
    await page.getByRole('link', { name: 'Call 911' }).waitFor();
    await page.getByText('35.95310° N').waitFor();
    await page.getByText("35° 57.186' N").waitFor();
    await page.getByText('Joan Calloway 555-0117').waitFor();
    await page.getByText('Somebody expects a call').click();
    await button(page, '1 h').click();
    await button(page, /^Expected by/).click();
    await page.getByText(/Call expected by/).waitFor();
    expect(await last()).toMatchObject({ type: 'call-expected', body: { due: { precision: 'minute' } } });
    await page.clock.fastForward(3_700_000);
    await page.getByText(/OVERDUE/).waitFor();
    await button(page, 'I have called').click();
    await button(page, 'They have heard from me').click();
    await page.getByText(/Nobody is recorded as expecting a call/).waitFor();
    expect(await last()).toMatchObject({ type: 'call-made' });
  });
});
