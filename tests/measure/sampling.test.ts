// Sample plots: borderline trees, slopes, what is missing, and what is refused. Published factors and the inventory's
// figures stand in tests/reference/sampling.test.ts.
import { assert, double, integer, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isNotEnough } from '../../src/measure/figure.ts';
import { sampleEstimate, stratifiedEstimate } from '../../src/measure/sampling/estimate.ts';
import {
  basalAreaPerArea,
  borderlineCheck,
  limitingDistance,
  stemsPerArea,
} from '../../src/measure/sampling/plot.ts';
import { plotAmount, plotBasalArea, plotStems } from '../../src/measure/sampling/plot-sums.ts';
import { regenerationEstimate } from '../../src/measure/sampling/regeneration.ts';

const gauge = { is: 'angle-gauge', factor: 10, unit: 'ft2/ac' } as const;
const tenth = { is: 'fixed-radius', radius: 37.24, unit: 'ft' } as const;
const inches = (value: number) => ({ value, unit: 'in' }) as const;

describe('a borderline tree', () => {
  it('of 12 in is in at 33 ft by a factor of 10, and out a tenth of a foot farther', () => {
    // 12 × 2.75 = 33.0; the unrounded factor 2.74999… makes it 32.9999 ft.
    const at = (value: number) => borderlineCheck(gauge, inches(12), { value, unit: 'ft', to: 'center' });
    expect(at(32.99)).toMatchObject({ in: true });
    expect(at(33.1)).toMatchObject({ in: false });
  });

  it('that stands just at the limit is in', () => {
    const metric = { is: 'angle-gauge', factor: 1, unit: 'm2/ha' } as const;
    const check = borderlineCheck(metric, { value: 40, unit: 'cm' }, { value: 20, unit: 'm', to: 'center' });
    expect(check).toEqual({ in: true, distance: 20, limit: 20, margin: 0 });
  });

  it('is half its DBH farther away when the tape was held to its face', () => {
    const center = borderlineCheck(gauge, inches(24), { value: 66, unit: 'ft', to: 'center' });
    const face = borderlineCheck(gauge, inches(24), { value: 65, unit: 'ft', to: 'face' });
    if (isNotEnough(center) || isNotEnough(face)) throw new Error('there is a distance');
    expect(face.distance).toBeCloseTo(center.distance, 12);
  });

  it('is nearer than the tape says when that was held along a slope', () => {
    // A grade of 75 % makes a triangle of 3, 4, 5: 40 ft along the ground are 32 ft level.
    const along = { value: 40, unit: 'ft', to: 'center', slope: { value: 75, unit: '%' } } as const;
    const check = borderlineCheck(gauge, inches(12), along);
    expect(check).toMatchObject({ in: true, distance: expect.closeTo(32 * 0.3048, 12) as number });
    expect(borderlineCheck(gauge, inches(12), { ...along, slope: { value: 0, unit: '%' } })).toMatchObject({
      in: false,
    });
  });

  it('cannot be judged without its DBH where that is needed', () => {
    expect(borderlineCheck(gauge, undefined, { value: 30, unit: 'ft', to: 'center' })).toMatchObject({
      notEnough: expect.stringContaining('DBH') as string,
    });
    expect(borderlineCheck(tenth, undefined, { value: 30, unit: 'ft', to: 'face' })).toMatchObject({
      notEnough: expect.stringContaining('half of it') as string,
    });
    expect(borderlineCheck(tenth, undefined, { value: 30, unit: 'ft', to: 'center' })).toMatchObject({
      in: true,
    });
  });

  it('is refused at a negative distance, by a factor of 0 and with a DBH of 0, naming each', () => {
    const taped = { value: -1, unit: 'ft', to: 'center' } as const;
    expect(() => borderlineCheck(gauge, inches(12), taped)).toThrow('distance: -1 is no distance');
    expect(() => limitingDistance({ ...gauge, factor: 0 }, inches(12))).toThrow('factor: 0 cannot be');
    expect(() => limitingDistance(gauge, inches(0))).toThrow('dbh: 0 cannot be');
    expect(() => limitingDistance({ ...tenth, radius: -3 }, undefined)).toThrow('radius: -3 cannot be');
  });
});

describe('what a tree on a plot stands for', () => {
  it('is ten stems per acre on a tenth of an acre, whose radius is 37.24 ft', () => {
    expect(stemsPerArea({ method: tenth }, undefined, 'ac')).toBeCloseTo(10, 2);
  });

  it('is by an angle gauge the factor, whatever the DBH', () => {
    assert(
      property(double({ min: 0.5, max: 60, noNaN: true }), (dbh) => {
        const stems = Number(stemsPerArea({ method: gauge }, inches(dbh), 'ac'));
        expect((stems * Math.PI * dbh ** 2) / 576).toBeCloseTo(10, 9);
        expect(basalAreaPerArea({ method: gauge }, inches(dbh), 'ft2/ac')).toBe(10);
      }),
    );
  });

  it('is more by the slope where a plot was laid out along it: a quarter more on a grade of 75 %', () => {
    const alongSlope = { value: 75, unit: '%' } as const;
    for (const method of [gauge, tenth])
      for (const of of [stemsPerArea, basalAreaPerArea] as const) {
        const unit = (of === stemsPerArea ? 'ac' : 'ft2/ac') as never;
        const level = Number(of({ method }, inches(12), unit));
        expect(Number(of({ method, alongSlope }, inches(12), unit)) / level).toBeCloseTo(1.25, 12);
      }
  });

  it('is the same land in hectares', () => {
    const acres = Number(stemsPerArea({ method: tenth }, undefined, 'ac'));
    const hectares = Number(stemsPerArea({ method: tenth }, undefined, 'ha'));
    expect(hectares / acres).toBeCloseTo(1 / 0.40468564224, 10);
  });
});

describe('the trees of a plot', () => {
  it('counted by angle gauge have a basal area without a DBH, and no number of stems', () => {
    const trees = [{ dbh: inches(10) }, {}, {}];
    expect(plotBasalArea({ method: gauge }, trees, 'ft2/ac')).toBe(30);
    expect(plotStems({ method: gauge }, trees, 'stems/ac')).toEqual({
      notEnough: 'not enough data: 2 of 3 trees of the plot have no DBH.',
    });
  });

  it('on a plot of fixed radius have a number without a DBH, and no basal area', () => {
    const trees = [{ dbh: inches(10) }, {}];
    expect(plotStems({ method: tenth }, trees, 'stems/ac')).toBeCloseTo(20, 2);
    expect(plotBasalArea({ method: tenth }, trees, 'ft2/ac')).toMatchObject({
      notEnough: expect.stringContaining('1 of 2 trees') as string,
    });
  });

  it('may be none: an empty plot has nothing, and that is a number', () => {
    expect(plotBasalArea({ method: gauge }, [], 'ft2/ac')).toBe(0);
  });

  it('have any amount per acre that each of them has, such as volume', () => {
    const trees = [
      { dbh: inches(12), volume: 20 },
      { dbh: inches(12), volume: 30 },
    ];
    expect(plotAmount({ method: tenth }, trees, 'ac', ({ volume }) => volume, 'volume')).toBeCloseTo(500, 0);
    const unknown = [...trees, { dbh: inches(9) } as (typeof trees)[number]];
    expect(plotAmount({ method: tenth }, unknown, 'ac', ({ volume }) => volume, 'volume')).toEqual({
      notEnough: 'not enough data: 1 of 3 trees of the plot has no volume.',
    });
  });
});

describe('plots as a sample', () => {
  it('of one say nothing of their error', () => {
    expect(sampleEstimate([80])).toMatchObject({ notEnough: expect.stringContaining('two') as string });
  });

  it('with a mean of 0 have no error in percent', () => {
    expect(sampleEstimate([0, 0, 0])).toMatchObject({
      mean: 0,
      samplingErrorPercent: { notEnough: 'not enough data: a mean of 0 has no error in percent.' },
    });
  });

  it('in one stratum are the same as without strata', () => {
    const values = [80, 120, 90, 110, 70];
    const one = stratifiedEstimate([{ name: 'A', area: 3, values }]);
    const plain = sampleEstimate(values);
    if (isNotEnough(one) || isNotEnough(plain)) throw new Error('there is an estimate');
    for (const name of ['n', 'mean', 'standardError', 'degrees', 'low', 'high'] as const)
      expect(one[name]).toBeCloseTo(plain[name], 10);
  });

  it('in strata of one mean and no spread have that mean, whatever the areas', () => {
    assert(
      property(integer({ min: 1, max: 50 }), integer({ min: 1, max: 50 }), (one, other) => {
        const strata = [one, other].map((area) => ({ name: 'x', area, values: [60, 60] }));
        expect(stratifiedEstimate(strata)).toMatchObject({
          mean: expect.closeTo(60, 10) as number,
          low: expect.closeTo(60, 10) as number,
        });
      }),
    );
  });

  it('need two in every stratum, and an area', () => {
    const two = { name: 'North', area: 2, values: [1, 2] };
    expect(stratifiedEstimate([two, { name: 'South', area: 1, values: [3] }])).toEqual({
      notEnough: 'not enough data: South has 1 of the two plots that its error needs.',
    });
    expect(() => stratifiedEstimate([{ ...two, area: 0 }])).toThrow('area: 0 of North is no area');
    expect(stratifiedEstimate([])).toEqual({ notEnough: 'not enough data: there are no strata.' });
  });
});

describe('regeneration plots', () => {
  // A milacre has a radius of 3.72 ft: one stem on it stands for a thousand per acre.
  const radius = { value: Math.sqrt(43.56 / Math.PI), unit: 'ft' } as const;
  const oaks = (count: number, heightClass = 'under 1 ft') => ({ species: 'QURU', heightClass, count });
  const four = [
    { radius, counts: [oaks(8)] },
    { radius, counts: [] },
    { radius, counts: [] },
    { radius, counts: [oaks(1, 'over 4.5 ft'), { species: 'ACRU', heightClass: 'under 1 ft', count: 3 }] },
  ];

  it('have stems per acre and stocking, which are two things', () => {
    expect(regenerationEstimate(four)).toMatchObject({
      plots: 4,
      stems: { mean: expect.closeTo(3000, 6) as number },
      unit: 'stems/ac',
      stocking: { share: 0.5 },
      stockedFrom: 1,
      table: [
        { species: 'QURU', heightClass: 'under 1 ft', stems: expect.closeTo(2000, 6) as number },
        { species: 'ACRU', heightClass: 'under 1 ft', stems: expect.closeTo(750, 6) as number },
        { species: 'QURU', heightClass: 'over 4.5 ft', stems: expect.closeTo(250, 6) as number },
      ],
    });
  });

  it('can be asked for some species, heights and a number that makes a plot stocked', () => {
    const question = { counted: ({ species }: { species: string }) => species === 'QURU', stockedFrom: 2 };
    expect(regenerationEstimate(four, question)).toMatchObject({
      stems: { mean: expect.closeTo(2250, 6) as number },
      stocking: { share: 0.25 },
      method: expect.stringContaining('at least 2') as string,
    });
  });

  it('of one plot have a stocking and no error of the stems', () => {
    expect(regenerationEstimate(four.slice(0, 1))).toMatchObject({
      stems: { notEnough: expect.stringContaining('two') as string },
      stocking: { share: 1 },
    });
  });

  it('say what is missing when there are none, and refuse what is no count and no radius', () => {
    expect(regenerationEstimate([])).toEqual({
      notEnough: 'not enough data: no regeneration plot was counted.',
    });
    expect(() => regenerationEstimate([{ radius, counts: [oaks(1.5)] }])).toThrow('count: 1.5 of QURU');
    const none = { value: 0, unit: 'ft' } as const;
    expect(() => regenerationEstimate([{ radius: none, counts: [] }])).toThrow('radius: 0 cannot be');
    expect(() => regenerationEstimate(four, { stockedFrom: 0 })).toThrow('stockedFrom: 0 is no count');
  });
});
