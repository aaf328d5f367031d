// Plots, regeneration plots and damage from a logbook: what is counted, what is left out, what is missing, and the
// entries that each answer rests on. The formulas behind them are held against sources in tests/reference.
import { describe, expect, it } from 'vitest';
import type { JsonObject } from '../../../src/events/index.ts';
import { damageFigures } from '../../../src/stand/figures/damage.ts';
import { regenerationFigures } from '../../../src/stand/figures/regeneration.ts';
import { sampleFigures } from '../../../src/stand/figures/samples.ts';
import { fold } from '../../../src/stand/index.ts';
import { uuid } from '../entries.ts';
import { type Line, written } from '../group-story.ts';

const north = uuid(0x56_0001);
const south = uuid(0x56_0002);
const group = uuid(0x53_0001);
const q = (value: string, unit: string) => ({ text: `${value} ${unit}`, value, unit });
const near = (value: number) => expect.closeTo(value, 6) as number;

const block = (id: string, name: string, area?: string): Line => [
  'block-laid-out',
  { block: id, name, ...(area === undefined ? {} : { area: q(area, 'ac') }) },
];
const tree = (dbh: string, more: JsonObject = {}): JsonObject => ({ dbh: q(dbh, 'in'), ...more });
const gauge = (plot: string, trees: JsonObject[], more: JsonObject = {}): Line => [
  'plot-tallied',
  { block: north, plot, method: 'angle-gauge', factor: q('10', 'ft2/ac'), trees, ...more },
];
const samplesOf = (...lines: Line[]) => sampleFigures(fold(written(...lines)), { system: 'inch' });

describe('sample plots', () => {
  it('of a block have the mean of their plots, the empty one counted, with the entries behind it', () => {
    const figures = samplesOf(
      block(north, 'North', '10'),
      gauge('1', [tree('12'), tree('14'), tree('9')]),
      gauge('2', []),
    );
    expect(figures.blocks).toMatchObject([
      {
        label: 'North',
        plots: 2,
        basalArea: { value: 15, unit: 'ft2/ac', n: 2, restsOn: [uuid(2), uuid(3)] },
      },
    ]);
    expect(figures.all.basalArea).toMatchObject({ value: near(15) });
  });

  it('leave out what is out or dead, and decide a borderline tree by its distance', () => {
    // By a factor of 10 a tree of 12 in is in as far as 33 ft.
    const borderline = (feet: string) => tree('12', { is: 'borderline', distance: q(feet, 'ft') });
    const trees = [
      tree('10'),
      tree('30', { is: 'out' }),
      tree('20', { dead: true }),
      borderline('32.9'),
      borderline('33.1'),
    ];
    const figures = samplesOf(block(north, 'North', '10'), gauge('1', trees), gauge('2', [tree('10')]));
    expect(figures.blocks[0]?.basalArea).toMatchObject({ value: 15 });
  });

  it('give no number while a borderline tree is undecided, and name the plot', () => {
    const figures = samplesOf(
      block(north, 'North', '10'),
      gauge('7', [tree('12', { is: 'borderline' })]),
      gauge('8', []),
    );
    expect(figures.blocks[0]?.basalArea).toEqual({
      notEnough: 'not enough data: plot 7: a borderline tree has no distance.',
    });
  });

  it('counted without DBH have a basal area and no number of stems', () => {
    const figures = samplesOf(block(north, 'North', '10'), gauge('1', [{}, {}]), gauge('2', [{}]));
    expect(figures.blocks[0]).toMatchObject({
      basalArea: { value: 15 },
      stems: { notEnough: 'not enough data: plot 1: 2 of 2 trees of the plot have no DBH.' },
    });
  });

  it('tallied again stand for the last visit', () => {
    const figures = samplesOf(
      block(north, 'North', '10'),
      gauge('1', [tree('12')]),
      gauge('2', [tree('12')]),
      gauge('1', [tree('12'), tree('12'), tree('12')]),
    );
    expect(figures.blocks[0]).toMatchObject({
      plots: 2,
      basalArea: { value: 20, restsOn: [uuid(4), uuid(3)] },
    });
  });

  it('of several blocks are weighed by area, and not at all where an area is missing', () => {
    const plots = (of: string, count: number): Line[] =>
      ['1', '2'].map((name) =>
        gauge(
          name,
          Array.from({ length: count }, () => tree('12')),
          { block: of },
        ),
      );
    const two = (area?: string) =>
      samplesOf(
        block(north, 'North', '30'),
        block(south, 'South', area),
        ...plots(north, 4),
        ...plots(south, 8),
      );
    // 30 ac with 40 ft²/ac and 10 ac with 80 ft²/ac.
    expect(two('10').all).toMatchObject({ plots: 4, basalArea: { value: near(50) } });
    expect(two().all.basalArea).toEqual({
      notEnough: 'not enough data: the area of South is not recorded, so it cannot be weighed.',
    });
  });

  it('laid out along a slope stand for more, a quarter more on 75 %; and the floors are told', () => {
    const along = { laidOut: 'along-the-slope', slope: q('75', '%'), floor: q('5', 'in') };
    const figures = samplesOf(
      block(north, 'North', '10'),
      gauge('1', [tree('12')], along),
      gauge('2', [tree('12')], along),
    );
    expect(figures.blocks[0]?.basalArea).toMatchObject({ value: near(12.5) });
    expect(figures.remarks.join(' ')).toContain('Smallest DBH that was tallied: 5 in.');
  });
});

describe('regeneration plots', () => {
  const oak = { text: 'white oak', list: 'us', code: 'QUAL' };
  const milacre = String(Math.sqrt(43.56 / Math.PI).toFixed(6));
  const counted = (plot: string, count: number, more: JsonObject = {}): Line => [
    'regeneration-counted',
    {
      group,
      plot,
      plotRadius: q(milacre, 'ft'),
      method: 'milacre plots',
      ...(count === 0 ? {} : { counts: [{ species: oak, heightClass: 'under 1 ft', count }] }),
      ...more,
    },
  ];

  it('are compared visit by visit: a visit ends where a plot is counted again', () => {
    const log = written(
      counted('r1', 4),
      counted('r2', 0),
      counted('R1', 9),
      counted('r2', 1),
      counted('r3', 2),
    );
    const { visits, remarks } = regenerationFigures(fold(log), { group, system: 'inch' });
    expect(visits).toMatchObject([
      {
        estimate: { plots: 2, stems: { value: expect.closeTo(2000, 2) as number }, stocking: { value: 0.5 } },
        restsOn: [uuid(1), uuid(2)],
      },
      {
        estimate: { plots: 3, stems: { value: expect.closeTo(4000, 2) as number }, stocking: { value: 1 } },
        restsOn: [uuid(3), uuid(4), uuid(5)],
      },
    ]);
    expect(remarks.join(' ')).toContain('more than 60 days');
    expect(remarks.join(' ')).not.toContain('methods differ');
  });

  it('that repeat are held against themselves: a paired t interval over those counted at both visits', () => {
    const counts = (one: number, two: number, three: number) => [
      counted('r1', one),
      counted('r2', two),
      counted('r3', three),
    ];
    const log = written(...counts(4, 0, 1), ...counts(6, 1, 1));
    const { steps } = regenerationFigures(fold(log), { group, system: 'inch' });
    // Differences of 2000, 1000 and 0 an acre: mean 1000, standard deviation 1000; t of 2 degrees is 4.303 (Student's table).
    const standardError = 1000 / Math.sqrt(3);
    expect(steps).toMatchObject([
      {
        change: {
          paired: true,
          plots: { earlier: 3, later: 3, both: 3 },
          stems: {
            value: expect.closeTo(1000, 1) as number,
            unit: 'stems/ac',
            standardError: expect.closeTo(standardError, 1) as number,
            low: expect.closeTo(1000 - 4.303 * standardError, 0) as number,
            restsOn: [1, 2, 3, 4, 5, 6].map(uuid),
          },
          stocking: {
            value: near(100 / 3),
            unit: 'percentage points',
            earlier: { stocked: 2, plots: 3 },
            later: { stocked: 3, plots: 3 },
          },
        },
      },
    ]);
  });

  it('at other places are two samples, and one plot on either side has no interval', () => {
    const [first, second] = [
      ['r1', 'r2', 'r3'],
      ['r1', 's2', 's3'],
    ] as const;
    const log = written(
      ...first.map((plot, index) => counted(plot, index)),
      ...second.map((plot, index) => counted(plot, 2 * index)),
    );
    const { steps } = regenerationFigures(fold(log), { group, system: 'inch' });
    // Variances 1 and 4 million, three plots each: Welch's degrees (5/3)² / ((1/3)² + (4/3)²) · 2 = 50/17, by hand.
    expect(steps).toMatchObject([
      {
        change: {
          paired: false,
          plots: { earlier: 3, later: 3, both: 1 },
          stems: { value: expect.closeTo(1000, 1) as number, degrees: expect.closeTo(50 / 17, 6) as number },
        },
      },
    ]);
    const alone = regenerationFigures(fold(written(counted('r1', 1), counted('r1', 3))), {
      group,
      system: 'inch',
    });
    expect(alone.steps).toMatchObject([
      { change: { paired: false, stems: { notEnough: expect.stringContaining('two values') as string } } },
    ]);
  });

  it('make two visits where more than 60 days lie between them, though no plot was counted again', () => {
    const counts = (days: number) => {
      const [first, second] = written(counted('r1', 4), counted('r2', 1));
      if (first === undefined || second === undefined) throw new Error('two entries were written');
      const at = new Date(Date.parse(first.happenedAt.at) + days * 86_400_000).toISOString();
      const log = [first, { ...second, happenedAt: { at, precision: 'instant' as const } }];
      return regenerationFigures(fold(log), { group, system: 'inch' }).visits.map(
        ({ restsOn }) => restsOn.length,
      );
    };
    expect(counts(60)).toEqual([2]);
    expect(counts(61)).toEqual([1, 1]);
    // Counted in 2021 and in 2024.
    expect(counts(3 * 365)).toEqual([1, 1]);
  });

  it('by different methods are said to differ, and more trees can be asked of a stocked plot', () => {
    const log = written(counted('r1', 4), counted('r1', 1, { method: 'two-metre circles' }));
    const { visits, remarks } = regenerationFigures(fold(log), { group, system: 'metric', stockedFrom: 2 });
    expect(visits).toMatchObject([
      { estimate: { stocking: { value: 1 } } },
      { estimate: { stocking: { value: 0 } } },
    ]);
    expect(remarks.join(' ')).toContain('methods differ');
  });

  it('of a block are its own, not those of a group', () => {
    const log = written(
      block(north, 'North'),
      counted('r1', 4),
      counted('r9', 1, { group: undefined, block: north } as never),
    );
    const { visits } = regenerationFigures(fold(log), { block: north, system: 'inch' });
    expect(visits.map(({ restsOn }) => restsOn)).toEqual([[uuid(3)]]);
  });
});

describe('damage to leave trees', () => {
  const stems = [1, 2, 3, 4].map((index) => uuid(0x51_0010 + index));
  const leave = (index: number, dbh: string, more: JsonObject = {}): Line => [
    'stem-marked',
    { stem: stems[index] ?? '', mark: 'leave', dbh: q(dbh, 'in'), ...more },
  ];
  const damage = (number: number, index: number, more: JsonObject): Line => [
    'damage-noted',
    { damage: uuid(0x57_0000 + number), to: 'leave-tree', stem: stems[index] ?? '', ...more },
  ];
  const log = written(
    ['group-laid-out', { group, label: 'G1' }],
    leave(0, '20', { group }),
    leave(1, '10', { group }),
    leave(2, '10'),
    ['stem-marked', { stem: stems[3] ?? '', mark: 'cut', dbh: q('30', 'in'), group }],
    damage(1, 0, { woundArea: q('645.16', 'cm2') }),
    damage(2, 0, { part: 'crown' }),
    ['damage-noted', { damage: uuid(0x57_0009), to: 'soil', what: 'rut' }],
  );

  it('is a share of the stems that were to stay, in all and in each group, by number and by basal area', () => {
    const { all, groups } = damageFigures(fold(log));
    // 400 of 600 by the squares of the diameters, in the group 400 of 500.
    expect(all).toMatchObject({
      trees: 3,
      damaged: 1,
      byBasalArea: { value: near(400 / 600) },
      wounds: { atLeast: 1, under: 0, unmeasured: 1 },
      treesAtLeast: 1,
    });
    expect(groups).toMatchObject([
      { label: 'G1', share: { trees: 2, damaged: 1, byBasalArea: { value: near(0.8) } } },
    ]);
    expect(all.restsOn).toEqual([2, 6, 7, 3, 4].map(uuid));
  });

  it('can be asked with another limit', () => {
    const { all } = damageFigures(fold(log), { limit: { value: 101, unit: 'in2' } });
    expect(all).toMatchObject({ wounds: { atLeast: 0, under: 1, unmeasured: 1 }, treesAtLeast: 0 });
  });
});
