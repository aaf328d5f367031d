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

/** Everything in an answer that has a value which is a number. */
function numbersIn(answer: unknown): object[] {
  if (typeof answer !== 'object' || answer === null) return [];
  const within = Object.values(answer).flatMap(numbersIn);
  return 'value' in answer && typeof answer.value === 'number' ? [answer, ...within] : within;
}

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
      figures: {
        choices: { gross: { value: 144 }, jumpButted: { net: { value: 108 }, length: { value: 12 } } },
      },
    });
  });

  describe('of one log', () => {
    const log = async (query: string) =>
      (await asked(`log?${new URLSearchParams(query).toString()}`)).figures;

    it('are by a printed table, with even feet and trim taken off and two readings at right angles', async () => {
      // Wengert, Log Volume, 2001: 14 in × 16 ft is 135 bf in the International table. 13.9 in goes to 14.
      const figures = await log(
        'rule=international-table&small-end=14.2 in, 13.6 in&length=16 ft 5 in&defects=rot 6 x 5 in 4 ft; length 2 ft',
      );
      expect(figures).toMatchObject({
        gross: { value: 135, unit: 'bf', restsOn: [] },
        scaled: { length: 16, segments: [{ diameter: 14, length: 16 }], next: 'down' },
        // From memory (Grosenbaugh 1952): (6+1)(5+1) / 12.9² · 4/16, and 2/16.
        deducted: { value: expect.closeTo(135 * ((42 / 12.9 ** 2) * 0.25 + 0.125), 6) as number },
      });
    });

    it('are those of its parts where it is long, with the taper between its ends', async () => {
      // Doyle table (tinytimbers.com): 12 in × 16 ft 64, 14 in × 16 ft 100.
      const figures = await log('rule=doyle&small-end=12&large-end=16&length=32 ft 4 in');
      expect(figures).toMatchObject({ gross: { value: 164 }, scaled: { length: 32 } });
    });

    it('are by another printed table, and nothing outside of it', async () => {
      // Scribner Decimal C as printed: 20 in × 16 ft is 28 (tens of board feet).
      expect(await log('rule=scribner-decimal-c&small-end=20&length=16 ft 4 in')).toMatchObject({
        gross: { value: 280 },
      });
      expect(await log('rule=international-table&small-end=60&length=16 ft 4 in')).toMatchObject({
        gross: { notEnough: expect.stringMatching(/^not enough data: /) as string },
        net: { notEnough: expect.stringMatching(/^not enough data: /) as string },
      });
    });

    it('of solid wood are in the units that are asked for', async () => {
      // Larsen, University of Missouri, Cubic Log Volume (seen): 10 and 12 in, 16 ft; 25 and 29 cm, 5 m.
      expect(await log('rule=smalian&small-end=10 in&large-end=12 in&length=16 ft')).toMatchObject({
        gross: { value: expect.closeTo(10.647, 3) as number, unit: 'ft3' },
      });
      expect(await log('rule=cone&small-end=25&large-end=29&length=5&units=metric')).toMatchObject({
        gross: { value: expect.closeTo(0.286801, 6) as number, unit: 'm3' },
      });
      // Computed from Huber's formula, from memory of the textbooks: middle 27 cm.
      expect(await log('rule=huber&middle=27&length=5&units=metric')).toMatchObject({
        gross: { value: expect.closeTo(0.286278, 6) as number },
      });
    });

    it('square a defect only in the rules that count it so', async () => {
      // From memory (the method is named in FSH 2409.11): (6+1)(6+1) · 8 / 15.
      const squared = await log('rule=scribner&small-end=16&length=16 ft 4 in&defects=square 6 x 6 in 8 ft');
      expect(squared).toMatchObject({ deducted: { value: expect.closeTo(26.1333, 4) as number } });
      const refused = await log('rule=doyle&small-end=16&length=16 ft 4 in&defects=square 6 x 6 in 8 ft');
      expect(refused).toMatchObject({ net: { notEnough: expect.stringContaining('by Doyle') as string } });
    });

    it('may be measured in metres and centimetres by a rule of boards, the taper too', async () => {
      // 35.56 cm are 14 in, 9.8552 m are 32 ft 4 in, 100/96 cm/m are 1/8 in/ft; Doyle table: 100 and, at 16 in, 144.
      const figures = await log(
        'rule=doyle&small-end=35.56&length=9.8552&taper=1.0416667&trim=10.16 cm&units=metric',
      );
      expect(figures).toMatchObject({
        gross: { value: 244 },
        scaled: { segments: [{ diameter: 14 }, { diameter: 16 }] },
      });
      const typed = await log('rule=doyle&small-end=14&length=32 ft 4 in&taper=1.0416667 cm/m');
      expect(typed).toMatchObject({ gross: { value: 244 } });
    });

    it('under 8 ft and its trim have no scale, and say so', async () => {
      expect(await log('rule=doyle&small-end=14&length=7 ft')).toMatchObject({
        gross: { notEnough: 'not enough data: a log of 7 ft is too short for 8 ft and 4 in of trim' },
      });
    });

    it('never lose more than there is', async () => {
      const figures = await log(
        'rule=doyle&small-end=16&length=16 ft 4 in&defects=length 12 ft; sector 180 deg 16 ft',
      );
      expect(figures).toMatchObject({ gross: { value: 144 }, deducted: { value: 144 }, net: { value: 0 } });
    });
  });

  it('name unit, method, source and entries wherever they give a number', async () => {
    await woods.record('prices-set', {
      rule: 'doyle',
      unit: 'Mbf',
      currency: 'USD',
      date: '2026-01-01',
      buyerClass: 'mill',
      rows: 'white oak, sawlog, 3, 300',
    });
    const queries = [
      'log?rule=doyle&small-end=12&large-end=16&length=32%20ft%204%20in&defects=sweep%204%20in',
      'log?rule=smalian&small-end=12&large-end=15&length=16&defects=rot%203%20x%203%20in%204%20ft',
      'butt?stem=A1&rule=doyle&small-end=16&length=16&product=sawlog&grade=3',
      'value?rule=doyle&form-class=78',
      'volume?rule=doyle&form-class=78',
    ];
    for (const query of queries) {
      const figures = numbersIn(await asked(query));
      expect(figures.length, query).toBeGreaterThan(0);
      for (const figure of figures)
        expect(figure, query).toMatchObject({
          unit: expect.stringMatching(/./) as string,
          method: expect.stringMatching(/./) as string,
          source: expect.stringMatching(/./) as string,
          restsOn: expect.any(Array) as number[],
        });
    }
    // Money by the list rests on the list too, which is the entry that came last.
    const { figures } = await asked(queries[2] ?? '');
    expect(figures).toMatchObject({
      choices: {
        withCull: { net: { restsOn: [6] }, money: { value: expect.any(Number) as number, restsOn: [6, 7] } },
      },
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
    ['volume?rule=cubic-feet&equation=hower', 'equation', 'hower', 'honer'],
    ['volume?rule=cubic-metres&equation=honer&form=0.4', 'form', '0.4', 'one of them'],
    ['volume?rule=doyle&form-class=78&equation=honer', 'equation', 'honer', 'form class'],
    ['log?rule=hubert', 'rule', 'hubert', 'vermont'],
    ['log?rule=doyle&length=16', 'small-end', '', '14 in'],
    ['log?rule=doyle&small-end=14,15,16&length=16', 'small-end', '14,15,16', 'two at right angles'],
    ['log?rule=doyle&small-end=14&length=0', 'length', '0', 'above 0'],
    ['log?rule=doyle&small-end=14&middle=15&length=16', 'middle', '15', 'leave it out'],
    ['log?rule=huber&middle=14&length=16&trim=4', 'trim', '4', 'leave it out'],
    ['log?rule=doyle&small-end=14&length=16&trim=-1%20in', 'trim', '-1 in', '0 or more'],
    ['log?rule=doyle&small-end=14&large-end=12&length=32', 'large-end', '12', 'exchange'],
    ['log?rule=doyle&small-end=14&large-end=16&taper=0.1&length=32', 'taper', '0.1', 'one of them'],
    ['log?rule=doyle&small-end=14&length=32&taper=much', 'taper', 'much', '0.125 in/ft'],
    ['log?rule=doyle&small-end=0&length=16', 'small-end', '0', 'a diameter above 0'],
    ['log?rule=smalian&small-end=10&large-end=0%20in&length=16', 'large-end', '0 in', 'a diameter above 0'],
    ['log?rule=smalian&small-end=10&length=16', 'large-end', '', '14 in'],
    ['log?rule=doyle&small-end=14&length=16&units=imperial', 'units', 'imperial', 'us or metric'],
    ['log?rule=doyle&small-end=14&length=16&stem=A1', 'stem', 'A1', 'means nothing'],
    [
      'log?rule=doyle&small-end=14&length=16%20ft&defects=sweep%204%20in;%20length%2017%20ft',
      'defects',
      'length 17 ft',
      'longer than the log',
    ],
    [
      'log?rule=cone&small-end=30&large-end=35&length=5&units=metric&defects=rot%2010%20x%2010%20cm%205.1%20m',
      'defects',
      'rot 10 x 10 cm 5.1 m',
      'longer than the log',
    ],
    [
      'log?rule=doyle&small-end=14&length=16&defects=sector%20400%20deg%208%20ft',
      'defects',
      'sector 400 deg 8 ft',
      'at most 360',
    ],
    ['log?rule=doyle&small-end=14&length=16&defects=length%200%20ft', 'defects', 'length 0 ft', 'above 0'],
    ['log?rule=doyle&small-end=14&length=16&half=even', 'half', 'even', 'down or up'],
    ['log?rule=doyle&small-end=14&length=16&defects=knots', 'defects', 'knots', 'sweep 4 in'],
    ['log?rule=doyle&small-end=14&length=16&defects=rot%20much', 'defects', 'rot much', 'rot 6 x 5 in 4 ft'],
    ['butt?stem=A1&rule=doyle&small-end=14&length=16&grade=3', 'grade', '3', 'product'],
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
