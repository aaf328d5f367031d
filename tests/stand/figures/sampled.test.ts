// Volume per area from plots, and the stand of a block whose tally is stated to be a sample. A tree of 24 in with 2½ logs
// of form class 78 has 519.665 bf by International ¼-inch: worked example of larsendr.github.io/mesavage.html. What a
// tree of a plot stands for is the geometry of its circle; t with one degree of freedom is 12.706 (Student's table).
import { describe, expect, it } from 'vitest';
import type { JsonObject } from '../../../src/events/index.ts';
import type { StandingMethod } from '../../../src/stand/figures/index.ts';
import { sampleFigures } from '../../../src/stand/figures/samples.ts';
import { fold, standFigures } from '../../../src/stand/index.ts';
import { uuid } from '../entries.ts';
import { type Line, written } from '../group-story.ts';

const north = uuid(0x56_0001);
const south = uuid(0x56_0002);
const q = (value: string, unit: string) => ({ text: `${value} ${unit}`, value, unit });
const near = (value: number, digits = 4) => expect.closeTo(value, digits) as number;
const species = { text: 'white oak', list: 'us', code: 'QUAL' };

/** A tenth of an acre. */
const tenth = Math.sqrt(4356 / Math.PI).toFixed(9);
const circle = (plot: string, trees: JsonObject[], block = north): Line => [
  'plot-tallied',
  { block, plot, method: 'fixed-radius', plotRadius: q(tenth, 'ft'), floor: q('5', 'in'), trees },
];
const sawtimber = { dbh: q('24', 'in'), merchantableHeight: q('40', 'ft'), species };
const pole = { dbh: q('8', 'in'), merchantableHeight: q('0', 'ft') };
const laidOut = (block: string, name: string, area: string): Line => [
  'block-laid-out',
  { block, name, area: q(area, 'ac') },
];
const quarterInch: StandingMethod = { rule: 'international-quarter-inch', formClass: 78 };

describe('volume per area on plots', () => {
  const plots = [circle('1', [sawtimber, sawtimber]), circle('2', [sawtimber, pole])];
  const volumeOf = (...lines: Line[]) =>
    sampleFigures(fold(written(...lines)), { system: 'inch', method: quarterInch });

  it('has its mean with standard error and interval; a tree without a log in it has none', () => {
    const figures = volumeOf(laidOut(north, 'North', '10'), ...plots);
    expect(figures.blocks[0]?.volume).toMatchObject({
      value: near(15 * 519.665, 2),
      standardError: near(5 * 519.665, 2),
      high: near(15 * 519.665 + 12.7062 * 5 * 519.665, 0),
      unit: 'bf/ac',
      method: 'mean of plots; standing tree by form class 78',
      restsOn: [uuid(2), uuid(3)],
    });
  });

  it('is not asked for without a rule, and then is none', () => {
    const folded = fold(written(laidOut(north, 'North', '10'), ...plots));
    expect(sampleFigures(folded, { system: 'inch' })).toMatchObject({
      rule: null,
      blocks: [{ volume: null }],
    });
  });

  it('over blocks is weighed by their areas', () => {
    const figures = volumeOf(
      laidOut(north, 'North', '30'),
      laidOut(south, 'South', '10'),
      ...plots,
      circle('1', [sawtimber], south),
      circle('2', [sawtimber], south),
    );
    // 30 ac with 15 and 10 ac with 10 such trees to the acre.
    expect(figures.all.volume).toMatchObject({ value: near(13.75 * 519.665, 2), unit: 'bf/ac' });
  });

  it('is none where the merchantable height of a tree is not known, and says which plot it is', () => {
    const figures = volumeOf(laidOut(north, 'North', '10'), circle('7', [{ dbh: q('24', 'in') }]), ...plots);
    expect(figures.blocks[0]?.volume).toEqual({
      notEnough: 'not enough data: plot 7: 1 of 1 tree of the plot has no volume (no merchantable height).',
    });
  });

  it('in cubic metres per hectare is that of cubic feet per acre, by 0.0699725 (CFA Forestry Handbook ch. 12)', () => {
    const form = { name: 'as asked', factor: 0.5, source: 'as asked' };
    const high = { ...sawtimber, height: q('80', 'ft') };
    const folded = fold(written(laidOut(north, 'North', '10'), circle('1', [high]), circle('2', [high])));
    const volumeIn = (system: 'inch' | 'metric', rule: 'cubic-feet' | 'cubic-metres') =>
      sampleFigures(folded, { system, method: { rule, form } }).blocks[0]?.volume;
    // Ten trees to the acre with a basal area of π ft², half of a cylinder 80 ft high.
    expect(volumeIn('inch', 'cubic-feet')).toMatchObject({ value: near(10 * Math.PI * 40), unit: 'ft3/ac' });
    expect(volumeIn('metric', 'cubic-metres')).toMatchObject({
      value: near(10 * Math.PI * 40 * 0.0699725, 3),
      unit: 'm3/ha',
    });
  });
});

describe('a block whose tally is stated to be a sample', () => {
  const scope: Line = ['tally-scope-set', { block: north, coverage: 'sampled', floor: q('5', 'in') }];
  const standOf = (by: 'class' | 'species' | 'group', ...lines: Line[]) =>
    standFigures(fold(written(laidOut(north, 'North', '10'), scope, ...lines)), {
      by,
      system: 'inch',
      block: north,
    });
  const plots = [circle('1', [sawtimber, pole]), circle('2', [pole, { dbh: q('4', 'in') }])];

  it('has its stems and basal area from the plots, row by row, with their error', () => {
    const { sampled } = standOf('class', ...plots);
    // A tree on a tenth of an acre stands for ten; basal area of 24 in is π ft², of 8 in a ninth of that. The tree of
    // 4 in is under the floor.
    expect(sampled).toMatchObject({
      plots: 2,
      rows: [
        { label: '7 to under 9 in', stems: { value: near(10), standardError: near(0) } },
        {
          label: '23 to under 25 in',
          stems: { value: near(5), standardError: near(5), high: near(5 + 12.7062 * 5, 2) },
          basalArea: { value: near(5 * Math.PI), unit: 'ft2/ac', restsOn: [uuid(3), uuid(4)] },
        },
      ],
      total: { stems: { value: near(15) }, basalArea: { value: near(5 * Math.PI + (10 * Math.PI) / 9) } },
    });
  });

  it('has rows of species with a species not recorded, and none by group', () => {
    expect(standOf('species', ...plots).sampled).toMatchObject({
      rows: [{ label: 'species not recorded' }, { label: 'white oak' }],
    });
    expect(standOf('group', ...plots).sampled).toEqual({
      notEnough: 'not enough data: plots stand for a block and not for its groups; ask by class or species.',
    });
  });

  it('without a plot has no figures, and says what is missing', () => {
    expect(standOf('class').sampled).toEqual({
      notEnough:
        'not enough data: the tally is stated to be a sample, and no plot of the block is recorded ("plot tallied").',
    });
  });

  it('is not read as a census: the stems in the log give nothing per acre', () => {
    const { land, remarks } = standOf('class', ...plots);
    expect(land).toEqual({
      notEnough:
        'not enough data: the tally of the block is stated to be a sample: what it says per area comes from the plots.',
    });
    expect(remarks.join(' ')).toContain('no census');
  });
});
