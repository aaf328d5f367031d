/**
 * Figures of decay and volume as they come out of a logbook, held against published values.
 * Sources beside each check; the values themselves are tested again, alone, in tests/reference.
 */
import { describe, expect, test } from 'vitest';
import type { JsonObject } from '../../../src/events/index.ts';
import { isNotEnough, SHAPES } from '../../../src/measure/index.ts';
import {
  buttFigures,
  decayComparison,
  fold,
  honer,
  type LogEntry,
  volumeFigures,
} from '../../../src/stand/index.ts';
import { pen, uuid } from '../entries.ts';

const group = uuid(0x61_0000);
const stemId = (number: number) => uuid(0x62_0000 + number);
const length = (value: string, unit = 'in') => ({ text: `${value} ${unit}`, value, unit });

describe('decay of a group against the other stumps', () => {
  const write = pen();
  let number = 0;
  const examined = (count: number, found: string, more: JsonObject = {}, decay: JsonObject = {}) =>
    Array.from({ length: count }, () => {
      number += 1;
      const stem = stemId(number);
      return [
        write('stem-marked', { stem, mark: 'cut', ...more }),
        write('decay-measured', { stem, found, ...decay }),
      ];
    }).flat();

  test('comes out as published for red spruce: 25 of 441 retained against 23 of 1426 stumps', () => {
    // Counts back-computed from North. J. Appl. For. 24(2), 2007, abstract; p, odds ratio and interval from R 4.2.2,
    // whose root finder is good to about 0.0002.
    const entries = [
      write('group-laid-out', { group, label: 'G1' }),
      ...examined(25, 'rot', { group }),
      ...examined(416, 'none', { group }),
      ...examined(23, 'hollow'),
      ...examined(1400, 'none'),
      ...examined(3, 'stain'),
    ];
    const { frequency } = decayComparison(fold(entries), group, 'inch');
    if (isNotEnough(frequency)) throw new Error(frequency.notEnough);
    expect(frequency.test.p).toBeCloseTo(1.597874e-5, 10);
    expect(frequency.test.oddsRatio).toBeCloseTo(3.66241, 3);
    expect(frequency.test.interval.low).toBeCloseTo(1.972, 3);
    expect(frequency.test.interval.high).toBeCloseTo(6.8314, 3);
    expect(frequency.restsOn).toHaveLength(441 + 1426);
    expect(frequency.sentence).toContain('25 of 441');
  });

  test('is too few to say when three stumps of the group were looked at, however clear they are', () => {
    const entries = [
      ...examined(3, 'rot', { group }, { upTheButt: length('6', 'ft') }),
      ...examined(9, 'none'),
    ];
    const { frequency, length: up } = decayComparison(fold(entries), group, 'inch');
    expect(frequency).toMatchObject({ notEnough: expect.stringContaining('too few to say') as string });
    expect(isNotEnough(up)).toBe(true);
  });

  test('takes the length up the butt in the unit that is asked for', () => {
    const rotten = (of: JsonObject, feet: readonly string[]) =>
      feet.flatMap((value) => examined(1, 'rot', of, { upTheButt: length(value, 'ft') }));
    const entries = [...rotten({ group }, ['5', '6', '7', '8']), ...rotten({}, ['1', '2', '3', '4'])];
    const shift = (system: 'inch' | 'metric') => {
      const { length: up } = decayComparison(fold(entries), group, system);
      return isNotEnough(up) ? Number.NaN : up.test.shift;
    };
    // Hodges–Lehmann: the median of the 16 differences, by hand 4 ft.
    expect(shift('inch')).toBeCloseTo(4, 9);
    expect(shift('metric')).toBeCloseTo(4 * 0.3048, 9);
  });
});

describe('volume of standing trees', () => {
  const write = pen();
  const tree = (stem: number, more: JsonObject) =>
    write('stem-marked', { stem: stemId(stem), mark: 'cut', tag: `T${stem}`, dbh: length('24'), ...more });
  const high = { merchantableHeight: length('40', 'ft'), product: 'sawlog', grade: 'F1' };

  test.each([
    // Wiant 1986 for the tables of Mesavage & Girard 1946: worked examples, 24 in, 2.5 logs; larsendr.github.io. Its
    // Scribner figures are 0.03 bf off those of the coefficients that it prints.
    ['international-quarter-inch', 78, 519.665],
    ['international-quarter-inch', 82, 582.025],
    ['scribner', 78, 484.581],
    ['scribner', 82, 542.73],
    ['doyle', 78, 428.942],
    ['doyle', 82, 480.415],
  ] as const)('by %s, form class %d, is %d bf for 24 in and 40 ft', (rule, formClass, expected) => {
    const { total, rows } = volumeFigures(fold([tree(1, high)]), { method: { rule, formClass } });
    const { volume } = total.left;
    expect(isNotEnough(volume) ? Number.NaN : volume.value).toBeCloseTo(expected, 1);
    expect(rows).toMatchObject([{ species: 'species not recorded', product: 'sawlog', grade: 'F1' }]);
  });

  test('has no total when a stem has none; the rest is given with how many stems it is of', () => {
    const folded = fold([
      tree(1, high),
      tree(2, {}),
      write('stem-felled', { stem: stemId(1), came: 'down' }),
    ]);
    const { total, without } = volumeFigures(folded, { method: { rule: 'doyle', formClass: 78 } });
    expect(isNotEnough(total.before.volume)).toBe(true);
    expect(total.before).toMatchObject({ computedStems: 1, stems: 2, computed: { rule: 'doyle' } });
    expect(isNotEnough(total.removed.volume)).toBe(false);
    expect(without).toEqual([{ stem: stemId(2), label: 'T2', why: 'no merchantable height' }]);
  });

  test('in cubic feet takes the measured height before the curve, and refuses a curve of seven trees', () => {
    const seven = Array.from({ length: 7 }, (_, index) =>
      tree(10 + index, { dbh: length(String(8 + 2 * index)), height: length(String(50 + 4 * index), 'ft') }),
    );
    const asked = { method: { rule: 'cubic-feet', form: SHAPES.cone } } as const;
    const refused = volumeFigures(fold([...seven, tree(20, { dbh: length('12') })]), asked);
    expect(refused.without.map(({ label }) => label)).toEqual(['T20']);
    expect(refused.heights).toMatchObject({ notEnough: expect.stringContaining('needs 8') as string });
    // A cone of 12 in and 58 ft: π/4 · 1 ft² · 58 / 3.
    const one = volumeFigures(fold([tree(1, { dbh: length('12'), height: length('58', 'ft') })]), asked).total
      .left;
    expect(one.computed?.value).toBeCloseTo((Math.PI / 4) * (58 / 3), 9);
  });
});

describe("solid wood of standing trees by Honer's equation", () => {
  const write = pen();
  const tree = (stem: number, species?: JsonObject) =>
    write('stem-marked', {
      stem: stemId(stem),
      mark: 'cut',
      tag: `T${stem}`,
      dbh: length('12'),
      height: length('65', 'ft'),
      ...(species ? { species } : {}),
    });
  const us = (code: string) => ({ text: code, list: 'us', code });
  const left = (rule: 'cubic-feet' | 'cubic-metres', ...entries: LogEntry[]) =>
    volumeFigures(fold(entries), { method: { rule, form: honer } });

  test('goes by the species of each stem: basswood of 12 in and 65 ft holds 20.21, trembling aspen 22.48 ft³', () => {
    // Honer 1967: coefficients by a second-hand copy, order of the species from memory, volumes computed.
    const { rows } = left('cubic-feet', tree(1, us('TIAM')), tree(2, us('POTR5')));
    const found = rows.map(({ columns }) => columns.left.computed);
    expect(found).toMatchObject([
      { value: expect.closeTo(20.21, 2) as number, unit: 'ft3' },
      { value: expect.closeTo(22.48, 2) as number, unit: 'ft3' },
    ]);
  });

  test('is the same wood in cubic metres', () => {
    // FAO T0269E App. II: 1 ft³ is 0.02832 m³.
    expect(left('cubic-metres', tree(1, us('TIAM'))).total.left.volume).toMatchObject({
      value: expect.closeTo(20.21 * 0.02832, 3) as number,
      unit: 'm3',
      rule: 'cubic-metres',
    });
  });

  test('has nothing for other species, for the same code of another list, and where no species is recorded', () => {
    const foreign = { text: 'mine:TIAM', list: 'mine', code: 'TIAM' };
    const { without } = left(
      'cubic-feet',
      tree(1, us('QUAL')),
      tree(2, foreign),
      tree(3),
      tree(4, us('toString')),
    );
    expect(without.map(({ why }) => why)).toEqual([
      "no coefficients of Honer's equation for white oak",
      "no coefficients of Honer's equation for TIAM (mine)",
      "no species, which Honer's equation goes by",
      "no coefficients of Honer's equation for toString",
    ]);
  });
});

describe('a butt log with rot in it', () => {
  const write = pen();
  const log = { smallEnd: 16, length: 16 };
  const entries = (decay: JsonObject) => [
    write('stem-marked', { stem: stemId(1), mark: 'cut' }),
    write('stem-felled', { stem: stemId(1), came: 'down' }),
    write('decay-measured', { stem: stemId(1), ...decay }),
  ];

  test('loses its lower part when it is jump-butted: 16 in, rot 3.5 ft up, leaves 12 ft, 108 of 144 bf by Doyle', () => {
    // Doyle table, "Doyle Log Scale in Board Feet", tinytimbers.com: 16 in × 16 ft 144, × 12 ft 108.
    const folded = fold(
      entries({
        found: 'rot',
        upTheButt: length('3.5', 'ft'),
        diameter: length('6'),
        shell: length('3'),
        stumpDiameter: length('20'),
      }),
    );
    const { choices, shell } = buttFigures(folded, stemId(1), log, { scale: 'doyle' });
    if (isNotEnough(choices)) throw new Error(choices.notEnough);
    expect(choices.gross.value).toBe(144);
    expect(choices.jumpButted).toMatchObject({
      cutOff: { value: 4, unit: 'ft' },
      length: { value: 12, unit: 'ft' },
      net: { value: 108 },
    });
    // Interior ellipse, from memory (Grosenbaugh 1952): (6+1)² / (16−1)² · 3.5/16 of 144 bf.
    expect(choices.withCull.net.value).toBeCloseTo(144 * (1 - (49 / 225) * (3.5 / 16)), 6);
    // Huang et al. 2017, Fig. 6: t/R = 0.3 leaves 76 %.
    expect(shell).toMatchObject({
      thicknessOverRadius: { value: 0.3, unit: 'share' },
      strengthLeft: { value: expect.closeTo(0.7599, 4) as number },
    });
    expect(isNotEnough(choices.withCull.money)).toBe(true);
  });

  test('keeps all of it when the stump showed none, and has prices only when they are given', () => {
    const folded = fold(entries({ found: 'none' }));
    const { choices } = buttFigures(
      folded,
      stemId(1),
      log,
      { scale: 'doyle' },
      {
        from: 'asked',
        withCull: 300,
        jumpButted: 500,
        currency: 'USD',
      },
    );
    expect(choices).toMatchObject({
      withCull: { net: { value: 144 }, money: { value: expect.closeTo(43.2, 9) as number, unit: 'USD' } },
    });
  });

  test('says nothing of a stump that nobody looked at', () => {
    const folded = fold([write('stem-marked', { stem: stemId(1), mark: 'cut' })]);
    expect(buttFigures(folded, stemId(1), log, { scale: 'doyle' }).choices).toMatchObject({
      notEnough: expect.stringContaining('what the stump showed') as string,
    });
  });

  test('has money by the recorded price list, for the goods and grades that are named', () => {
    const folded = fold([
      write('stem-marked', { stem: stemId(1), mark: 'cut', species: { text: 'QURU', code: 'QURU' } }),
      write('decay-measured', {
        stem: stemId(1),
        found: 'rot',
        upTheButt: length('3.5', 'ft'),
        diameter: length('6'),
      }),
      write('prices-set', {
        rule: 'doyle',
        unit: 'Mbf',
        currency: 'USD',
        date: '2026-01-01',
        buyerClass: 'mill delivered',
        rows: [
          { species: { text: 'QURU', code: 'QURU' }, product: 'sawlog', grade: '3', price: '300' },
          { species: { text: 'QURU', code: 'QURU' }, product: 'sawlog', grade: '1', price: '800' },
        ],
      }),
    ]);
    const price = {
      from: 'list',
      product: 'sawlog',
      withCull: '3',
      jumpButted: '1',
      buyerClass: undefined,
    } as const;
    const { choices } = buttFigures(folded, stemId(1), log, { scale: 'doyle' }, price);
    // 108 bf by Doyle of the log without its butt, at 800 for a thousand.
    expect(choices).toMatchObject({ jumpButted: { money: { value: expect.closeTo(86.4, 9) as number } } });
    const bySomethingElse = buttFigures(folded, stemId(1), log, { scale: 'scribner' }, price);
    expect(bySomethingElse.choices).toMatchObject({
      withCull: { money: { notEnough: 'not enough data: no price list by Scribner is recorded' } },
    });
  });

  test('scales a long one as two, and wants the taper for it', () => {
    const folded = fold(entries({ found: 'none' }));
    const long = { smallEnd: 12, length: 24 };
    expect(buttFigures(folded, stemId(1), long, { scale: 'doyle' }).choices).toMatchObject({
      notEnough: expect.stringContaining('give its taper') as string,
    });
    // Georgia Code 2-14-80: from 18 ft on two of even feet. 12 in and, 12 ft down at 1/8 in/ft, 13.5 in: the half goes down.
    const { choices } = buttFigures(folded, stemId(1), long, { scale: 'doyle', taper: 0.125 });
    // Doyle table: 12 in × 12 ft 48, 13 in × 12 ft 61 (60.75).
    expect(choices).toMatchObject({ gross: { value: 48 + 60.75 } });
  });
});
