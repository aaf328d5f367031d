// The felling plan on a phone without a signal, from the first look to the evening. What the phone works out is what the
// command line works out from the same logbook; that the numbers are right is held elsewhere (tests/felling). One browser for
// all: each test goes on where the one before it ended.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { needs } from '../../needs.ts';
import { type DayHouse, openDayHouse } from '../day/house.ts';
import {
  button,
  deviceOf,
  heading,
  newPhone,
  own,
  type Phone,
  pair,
  pairedPhone,
  reopened,
  rest,
  takeInHand,
} from '../day/phones.ts';
import { heldAgainstAxe, pushedSideways, tooSmall } from '../screens/looks.ts';
import { type DeskPlan, far, group, hollow, layOutGroup, planAtTheDesk, row } from './woods.ts';

const card = (page: Page) => page.getByRole('alertdialog', { name: 'The plan no longer holds. Stop.' });
const section = (page: Page, name: string) => page.getByRole('region', { name });
const isMade = (page: Page) => section(page, 'Next').waitFor();
const touch = (page: Page, name: string | RegExp) => button(page, name).click();

async function type(page: Page, field: RegExp, digits: string): Promise<void> {
  await touch(page, field);
  const pad = page.locator('.keypad');
  for (const digit of digits) await pad.getByRole('button', { name: digit, exact: true }).click();
  await pad.getByRole('button', { name: 'Done' }).click();
}

/** Everything unfolded but the keys, which are the same on every screen and take axe the longest. */
async function looksRight(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('details')) one.open = true;
  });
  expect(await tooSmall(page)).toEqual([]);
  expect(await pushedSideways(page)).toBe(0);
  expect(await heldAgainstAxe(page, 'everything')).toEqual([]);
}

/** The stems of the plan that is shown, in its order. */
async function shownOrder(page: Page): Promise<string[]> {
  const next = await section(page, 'Next').locator('.tag-large').first().textContent();
  const later = await section(page, 'After that').locator('summary').allTextContents();
  return [next ?? '', ...later.map((line) => /^\d+\. (\w+):/.exec(line)?.[1] ?? line)];
}

type Adopted = Readonly<{
  plan: string;
  steps: readonly Readonly<{ stem: string; aim: { value: string }; left: string; right: string }>[];
}>;

describe.skipIf(!needs('chromium'))('A felling plan on the phone', { timeout: 120_000 }, () => {
  let house: DayHouse;
  let phone: Phone;
  let desk: DeskPlan;
  beforeAll(async () => {
    house = await openDayHouse();
    await layOutGroup(house);
    desk = planAtTheDesk(house);
    phone = await pairedPhone(house);
    await takeInHand(phone.page, group);
    await phone.context.setOffline(true);
    await house.shut();
  }, 120_000);
  afterAll(() => house.end());

  const adopted = async (): Promise<Adopted> =>
    (await own(phone.page)).findLast(({ type: kind }) => kind === 'felling-plan-adopted')
      ?.body as unknown as Adopted;
  const labelOf = (stem: string | undefined) => desk.falls.find((fall) => fall.stem === stem)?.label ?? '';

  it('is worked out in flight mode, on a page that never showed one before, as the command line has it', async () => {
    const page = await reopened(phone);
    await touch(page, /^Plan the felling of 5 stems/);
    await isMade(page);
    expect(await shownOrder(page)).toEqual(desk.falls.map(({ label }) => label));
    const degrees = desk.falls[0]?.aim.aim ?? Number.NaN;
    await section(page, 'Next')
      .getByText(`${Math.round(degrees)}° true`, { exact: true })
      .waitFor();
    expect(desk.falls.map(({ label }) => label).sort()).toEqual([...row, far].sort());
  });

  it('says first what is set aside, with why and what would change it, and shows the cautions', async () => {
    const { page } = phone;
    const headings = await page.locator('main h2').allTextContents();
    expect(headings.indexOf('Set aside, still standing')).toBeGreaterThanOrEqual(0);
    expect(headings.indexOf('Set aside, still standing')).toBeLessThan(headings.indexOf('Next'));
    const aside = section(page, 'Set aside, still standing');
    expect(await aside.locator('h3').allTextContents()).toEqual([hollow]);
    await aside.getByText('Leave it standing: that is a choice too.').waitFor();
    // Flags of the command line are no words for the woods.
    expect(await page.locator('main').textContent()).not.toMatch(/--\w/);
    expect(await page.locator('main').textContent()).not.toMatch(/\bsafe/i);
    await page.getByText(/^Felling kills\. A trained person on site decides/).waitFor();
    // Conks are rot (reference of decay signs: common practice), and nobody measured what sound wood is left for a hinge.
    await page.getByText(new RegExp(`^Stop before ${far}: .*nobody measured how much sound wood`)).waitFor();
    await looksRight(page);
  });

  it('takes another stem first and another aim, and says why an aim cannot be kept', async () => {
    const page = await reopened(phone);
    await isMade(page);
    const last = (await shownOrder(page)).at(-1) ?? '';
    await page.getByText(new RegExp(`^4\\. ${last}`)).click();
    await page.locator('details[open]').getByRole('button', { name: 'This one next' }).click();
    await page.getByText(`${last} next`).waitFor();
    await isMade(page);
    expect((await shownOrder(page))[0]).toBe(last);
    const next = section(page, 'Next');
    await next.getByRole('button', { name: /^Another aim for it/ }).click();
    const pad = page.locator('.keypad');
    for (const digit of '270') await pad.getByRole('button', { name: digit, exact: true }).click();
    await pad.getByRole('button', { name: 'Done' }).click();
    await next.getByRole('button', { name: 'Aim it so, plan again' }).click();
    await page
      .getByText(
        new RegExp(
          `^There is no plan\\. ${last} cannot be aimed at .*(?:no wedges were said to be at hand|is aimed near its lean only)`,
        ),
      )
      .waitFor();
    await touch(page, `Take it out: ${last} aimed at 270 mag`);
    await touch(page, `Take it out: ${last} next`);
    await isMade(page);
    expect(await shownOrder(page)).toEqual(desk.falls.map(({ label }) => label));
  });

  it('says what should be measured first when it is asked', async () => {
    const { page } = phone;
    await touch(page, /^What should be measured first\?/);
    await section(page, 'Measure first').waitFor();
    // Without a figure of its own: whatever comes first, it is a measurement of something, or that none stands out.
    expect(await section(page, 'Measure first').textContent()).toMatch(
      / of P1\d: |^Measure firstNothing stands out/,
    );
    await isMade(page);
  });

  it('is adopted without a signal; at home it is the same plan by its hash', async () => {
    const { page } = phone;
    await touch(page, /^Adopt this plan/);
    await page.getByText(/^Adopted, and nothing recorded speaks against it so far\. 4 of 4/).waitFor();
    const body = await adopted();
    expect(body.steps.map(({ stem }) => labelOf(stem))).toEqual(desk.falls.map(({ label }) => label));
    await house.reopen();
    await phone.context.setOffline(false);
    await page.getByText(/^All sent/).waitFor();
    const entries = await house.entriesOf(await deviceOf(page));
    expect(entries.some(({ type: kind }) => kind === 'felling-plan-adopted')).toBe(true);
    const athome = planAtTheDesk(house);
    expect(athome.plan).toBe(body.plan);
    expect(athome.falls.map(({ stem }) => stem)).toEqual(body.steps.map(({ stem }) => stem));
    await phone.context.setOffline(true);
    await house.shut();
  });

  it('shows what is next, offers its aim as what was meant and never as how it lies, and goes on after the fall', async () => {
    const page = await reopened(phone, `${house.page}#/today`);
    const { steps } = await adopted();
    const [first, second] = steps.map(({ stem }) => labelOf(stem));
    await touch(page, `Next by the plan: ${first}`);
    await isMade(page);
    await touch(page, `${first} is down, or hangs`);
    await page
      .getByRole('group', { name: 'It was aimed' })
      .getByRole('button', { name: /^as planned/, pressed: true })
      .waitFor();
    await touch(page, 'It is down');
    await heading(page, 'Rot at the stump').waitFor();
    const felled = (await own(page)).at(-1);
    expect(felled?.body).toMatchObject({
      came: 'down',
      aimed: { value: steps[0]?.aim.value, reference: 'true' },
    });
    expect(felled?.body).not.toHaveProperty('lay');
    expect(felled?.body).not.toHaveProperty('asAimed');
    await rest(page);
    await touch(page, /^Looked, none/);
    await button(page, `Next by the plan: ${second}`).waitFor();
    expect(await card(page).count()).toBe(0);
    await touch(page, `Next by the plan: ${second}`);
    await page.getByText(/speaks against it so far\. 3 of 4/).waitFor();
    await isMade(page);
    expect(await shownOrder(page)).toEqual(steps.slice(1).map(({ stem }) => labelOf(stem)));
  });

  it('shows what was adopted, and says so, where it cannot be worked out again', async () => {
    const { page } = phone;
    await page.getByText('At hand, wind, slope, people').click();
    await page.getByLabel('Where people work or stay').fill('landing at the big rock');
    await page
      .getByText(/^It could not be worked out again on this phone\. It is not known where landing/)
      .waitFor();
    const { steps } = await adopted();
    expect(await page.locator('main ol > li').count()).toBe(3);
    await page.getByText(new RegExp(`^1\\. ${labelOf(steps[1]?.stem)}: `)).waitFor();
    await page.getByLabel('Where people work or stay').fill('');
    await isMade(page);
  });

  it('stops before everything else when a stem lies outside its band, also after the page was killed', async () => {
    let { page } = phone;
    const { steps } = await adopted();
    const step = steps[1];
    const side = Number(step?.left) < Number(step?.right) ? 'left' : 'right';
    const off = Math.ceil(Number(step?.[side])) + 5;
    await touch(page, `${labelOf(step?.stem)} is down, or hangs`);
    await touch(page, 'Off the aim by');
    await type(page, /^Off by/, String(off));
    await touch(page, `to the ${side}`);
    await touch(page, 'It is down');
    const farOff = page.getByRole('alertdialog', { name: 'Stop.', exact: true });
    await farOff.getByText('It lies far off the line').waitFor();
    await farOff.getByRole('button', { name: 'I have read this' }).click();
    await card(page)
      .getByText(new RegExp(`lies ${off}° ${side} of its aim, outside its band`))
      .waitFor();
    await looksRight(page);
    page = await reopened(phone);
    await card(page).waitFor();
    expect(await page.locator('[inert] h1').count()).toBe(1);
    // The way to help stays open, and the card is back behind it.
    await card(page).getByRole('button', { name: 'Emergency' }).click();
    await heading(page, 'Emergency card').waitFor();
    await touch(page, 'Back to today');
    await card(page).waitFor();
  });

  it('holds again only when a new plan was adopted', async () => {
    const { page } = phone;
    await card(page).getByRole('button', { name: 'Plan anew from how it is now' }).click();
    await section(page, 'The plan no longer holds. Stop.')
      .getByText(/outside its band/)
      .waitFor();
    await isMade(page);
    expect((await shownOrder(page)).length).toBe(2);
    await touch(page, 'Back to today');
    await card(page).waitFor();
    await card(page).getByRole('button', { name: 'Plan anew from how it is now' }).click();
    await isMade(page);
    await touch(page, /^Adopt this plan/);
    await page.getByText(/speaks against it so far\. 2 of 2/).waitFor();
    await touch(page, 'Back to today');
    await button(page, /^Next by the plan/).waitFor();
    expect(await card(page).count()).toBe(0);
  });

  it('plans nothing within two tree lengths of a stem that hangs, and is put away by a person', async () => {
    let { page } = phone;
    const left = (await adopted()).steps.map(({ stem }) => labelOf(stem));
    const near = left.find((label) => label !== far) ?? '';
    await button(page, new RegExp(`^${near}\\b`)).click();
    await touch(page, 'It hangs');
    await touch(page, 'I have read this');
    await card(page).getByText(`${near} hung up.`).waitFor();
    await card(page)
      .getByRole('button', { name: /^I have read this. Put the plan away/ })
      .click();
    await heading(page, 'Today').waitFor();
    page = await reopened(phone);
    await touch(page, /^The plan no longer holds\. Stop\./);
    await isMade(page);
    const aside = section(page, 'Set aside, still standing');
    await aside.getByText(/A hung-up stem .* is within 2 tree lengths/).waitFor();
    expect(await aside.locator('h3').allTextContents()).toEqual([hollow]);
    expect(await section(page, 'Next').locator('.tag-large').first().textContent()).toBe(far);
    await looksRight(page);
    expect(phone.errors).toEqual([]);
  });

  it('that cannot be loaded says to take an adopted plan for ended', async () => {
    await house.reopen();
    // No service worker keeps it, and the network loses it.
    const other = await newPhone(house, { serviceWorkers: 'block' });
    await other.context.route(/assets\/plan-/, (route) => route.abort());
    const page = await pair(house, other);
    await takeInHand(page, group);
    await page
      .getByText(/^The felling plan could not be loaded on this phone\. Take an adopted plan for ended/)
      .waitFor();
    expect(await button(page, /^Next by the plan/).count()).toBe(0);
  });
});
