// Figures over HTTP: what a program gets, and what it is told when it asks wrongly. Values are held against published
// ones in tests/stand/figures and tests/reference.
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type House, house } from './desk.ts';

let woods: House;
beforeEach(async () => {
  woods = await house({ empty: true });
  await woods.record('group-laid-out', { label: 'G1' });
  const tree = { group: 'G1', species: 'white oak', dbh: '24 in', merchantableHeight: '40 ft' };
  await woods.record('stem-marked', { mark: 'cut', tag: 'A1', ...tree });
  await woods.record('stem-marked', { mark: 'cut', tag: 'A2', ...tree, dbh: '12 in' });
  await woods.record('stem-felled', { stem: 'A1', came: 'down' });
  await woods.record('decay-measured', { stem: 'A1', found: 'rot', upTheButt: '3.5 ft', diameter: '6 in' });
});
afterEach(() => woods.end());

async function asked(path: string): Promise<Record<string, unknown>> {
  const answer = await woods.ask(`/api/figures/${path}`);
  expect(answer.status, await answer.clone().text()).toBe(200);
  return (await answer.json()) as Record<string, unknown>;
}

describe('figures', () => {
  it('carry value, unit, method, source and the numbers of the entries they rest on', async () => {
    const { what, figures } = await asked('stand?by=species');
    expect(what).toBe('stand');
    expect(figures).toMatchObject({
      by: 'species',
      system: 'inch',
      total: {
        cells: {
          removed: {
            basalArea: {
              value: expect.closeTo(Math.PI, 9) as number, // a circle of 24 in is π ft²
              unit: 'ft2',
              source: 'definition',
              restsOn: [3, 5, 6],
            },
          },
        },
      },
    });
  });

  it('say what is missing instead of a number', async () => {
    const { figures } = await asked('stand');
    expect(figures).toMatchObject({
      land: { notEnough: expect.stringMatching(/^not enough data: /) as string },
    });
  });

  it('of volume are by the rule and form class that were asked for', async () => {
    const { figures } = await asked('volume?rule=international-quarter-inch&form-class=78');
    // Worked example of Wiant 1986: 519.665 bf for 24 in and 2.5 logs.
    expect(figures).toMatchObject({
      total: {
        removed: {
          volume: { value: expect.closeTo(519.665, 2) as number, rule: 'international-quarter-inch' },
        },
      },
    });
  });

  it('of decay and of a butt log come with their label', async () => {
    expect(await asked('decay?group=g1')).toMatchObject({ label: 'G1' });
    const butt = await asked(
      'butt?stem=A1&rule=doyle&small-end=16&length=16%20ft&price-with-cull=300%20USD&price-jump-butted=450%20USD',
    );
    expect(butt).toMatchObject({
      label: 'A1',
      figures: { choices: { gross: { value: 144 }, jumpButted: { net: { value: 108 }, length: 12 } } },
    });
  });

  it('stand still while nothing was appended, and move when something is', async () => {
    const first = await woods.ask('/api/figures/stand');
    const again = { headers: { 'if-none-match': first.headers.get('etag') ?? '' } };
    expect((await woods.ask('/api/figures/stand', again)).status).toBe(304);
    await woods.record('stem-felled', { stem: 'A2', came: 'down' });
    expect((await woods.ask('/api/figures/stand', again)).status).toBe(200);
    // What "today" says is another thing tomorrow.
    expect((await woods.ask('/api/figures/stand?since=today')).headers.get('etag')).toBeNull();
  });

  it.each([
    ['stand?by=height', 'by', 'height', 'class, species, group'],
    ['stand?rule=doyle', 'rule', 'doyle', 'means nothing'],
    ['stand?floor=5%20lb', 'floor', '5 lb', 'use one of'],
    ['stand?units=imperial', 'units', 'imperial', 'us or metric'],
    ['stand?since=soon', 'since', 'soon', ''],
    ['stand?block=South', 'block', 'South', ''],
    ['volume?rule=doyle', 'form-class', '', 'form class'],
    ['volume?rule=doyle&form-class=-4', 'form-class', '-4', 'form class'],
    ['volume?rule=huber', 'rule', 'huber', 'cubic-feet'],
    ['volume?rule=cubic-feet&form=1.2', 'form', '1.2', 'at most 1'],
    ['volume?rule=cubic-feet&form-class=78', 'form-class', '78', 'form'],
    ['decay', 'group', '', 'which group'],
    ['butt?rule=doyle', 'stem', '', 'which stem'],
    ['butt?stem=A1&rule=doyle&small-end=0%20in&length=16', 'small-end', '0 in', 'above 0'],
    ['butt?stem=A1&rule=doyle&small-end=14', 'length', '', '16 ft'],
    [
      'butt?stem=A1&rule=doyle&small-end=14&length=16&price-with-cull=300%20USD',
      'price-jump-butted',
      '',
      'both',
    ],
    [
      'butt?stem=A1&rule=doyle&small-end=14&length=16&price-with-cull=300%20USD&price-jump-butted=3%20EUR',
      'price-jump-butted',
      '3 EUR',
      'both',
    ],
  ])('%s is refused by field, value and remedy', async (path, field, value, remedy) => {
    const answer = await woods.ask(`/api/figures/${path}`);
    expect(answer.status).toBe(400);
    const problem = (await answer.json()) as { detail: string };
    expect(problem).toMatchObject({ code: 'bad-parameter', problems: [{ field, value }] });
    expect(problem.detail).toContain(remedy);
  });

  it('of another kind there are none', async () => {
    expect((await woods.ask('/api/figures/biomass')).status).toBe(400);
  });
});
