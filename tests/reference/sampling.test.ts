// Sample plots against published factors, the national inventory's own figures, a full census, and R.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  inventoryConditions,
  inventoryDesign,
  inventorySeedlings,
  inventoryTrees,
} from '../../fixtures/fia-ri/inventory.ts';
import { liveStems } from '../../fixtures/scbi/census.ts';
import { stratifiedEstimate } from '../../src/measure/sampling/estimate.ts';
import { limitingDistance, plotRadiusFactor, stemsPerArea } from '../../src/measure/sampling/plot.ts';
import { plotBasalArea, plotStems } from '../../src/measure/sampling/plot-sums.ts';
import { regenerationEstimate } from '../../src/measure/sampling/regeneration.ts';
import { lengthIn } from '../../src/measure/units.ts';

describe('limiting distances of an angle gauge', () => {
  // "Point sampling", extension slides, yumpu.com/en/document/view/47957669, page 10 (seen): 10 and 20 ft²/ac; John
  // Bell & Associates newsletter 12, "OOPS" by K. Iles (seen): 40; for 5 a DBpedia abstract on borderline trees (seen).
  it.each([
    [5, 3.89, 2],
    [10, 2.75, 3],
    [20, 1.944, 2],
    [40, 1.375, 3],
  ])('published: a factor of %d ft²/ac takes an inch of DBH %d ft far', (factor, feet, digits) => {
    expect(plotRadiusFactor(factor, 'ft2/ac')).toBeCloseTo(feet, digits);
  });

  // The same newsletter: to the face of the tree the factor of 40 has 1.3333 ft, half an inch, 1/24 ft, less.
  it('published: to the face it is 1.3333 ft with a factor of 40', () => {
    expect(plotRadiusFactor(40, 'ft2/ac') - 1 / 24).toBeCloseTo(1.3333, 3);
  });

  // The same slides.
  it.each([
    [10, 33],
    [20, 23.3],
  ])('published: a tree of 12 in is in as far as %d ft²/ac allows, %d ft', (factor, feet) => {
    const method = { is: 'angle-gauge', factor, unit: 'ft2/ac' } as const;
    const limit = limitingDistance(method, { value: 12, unit: 'in' });
    expect(lengthIn(Number(limit), 'm', 'ft')).toBeCloseTo(feet, 1);
  });

  // Computed: at a factor of 1 m²/ha a tree is in as far as 50 times its DBH (Bitterlich's one to fifty).
  it('a factor of 1 m²/ha takes a centimetre of DBH half a metre far', () => {
    expect(plotRadiusFactor(1, 'm2/ha')).toBe(0.5);
    expect(limitingDistance({ is: 'angle-gauge', factor: 1, unit: 'm2/ha' }, { value: 40, unit: 'cm' })).toBe(
      20,
    );
  });
});

describe('the US national inventory in Rhode Island', () => {
  const { subplots, subplotFeet, microplotFeet, subplotFromInches } = inventoryDesign;
  const circle = (feet: number) => ({ method: { is: 'fixed-radius', radius: feet, unit: 'ft' } }) as const;

  it('expands a tree of 5 in and more by 6.018046 per acre, a smaller one by 74.965282', () => {
    let checked = 0;
    for (const tree of inventoryTrees()) {
      if (tree.TPA_UNADJ === '' || tree.DIA === '') continue;
      const feet = Number(tree.DIA) >= subplotFromInches ? subplotFeet : microplotFeet;
      const stems = Number(stemsPerArea(circle(feet), undefined, 'ac')) / subplots;
      expect(stems).toBeCloseTo(Number(tree.TPA_UNADJ), 5);
      checked += 1;
    }
    expect(checked).toBe(837);
  });

  // BALIVE of condition 1 is for the whole plot where the plot has no other part. The inventory has rounded factors.
  const whole = inventoryConditions()
    .filter(({ PLT_CN }, _, all) => all.filter((one) => one.PLT_CN === PLT_CN).length === 1)
    .filter(({ BALIVE }) => BALIVE !== '');
  it('has 15 plots of one part that have a basal area', () => expect(whole).toHaveLength(15));

  it.each(whole.map(({ PLT_CN, BALIVE }) => [PLT_CN, Number(BALIVE)] as const))(
    'published: live basal area of plot %s is %d ft²/ac',
    (plot, published) => {
      const live = inventoryTrees().filter(({ PLT_CN, STATUSCD }) => PLT_CN === plot && STATUSCD === '1');
      const sum = [1, 2, 3, 4].reduce((total, subplot) => {
        const trees = live
          .filter(({ SUBP }) => Number(SUBP) === subplot)
          .map(({ DIA }) => ({ dbh: { value: Number(DIA), unit: 'in' } as const }));
        const large = trees.filter(({ dbh }) => dbh.value >= subplotFromInches);
        const small = trees.filter(({ dbh }) => dbh.value < subplotFromInches);
        return (
          total +
          Number(plotBasalArea(circle(subplotFeet), large, 'ft2/ac')) +
          Number(plotBasalArea(circle(microplotFeet), small, 'ft2/ac'))
        );
      }, 0);
      // 0.005454 instead of 0.00545415 is 3 in 100,000.
      expect(Math.abs(sum / subplots / published - 1)).toBeLessThan(4e-5);
    },
  );

  it('expands counted seedlings as the inventory does', () => {
    const rows = inventorySeedlings().filter(({ TPA_UNADJ }) => TPA_UNADJ !== '');
    for (const { TREECOUNT, TPA_UNADJ, SPCD } of rows) {
      const counts = [{ species: SPCD, heightClass: 'seedling', count: Number(TREECOUNT) }];
      const radius = { value: microplotFeet, unit: 'ft' } as const;
      // One microplot of four with seedlings; the other three are empty, and count.
      const four = [counts, [], [], []].map((one) => ({ radius, counts: one }));
      const estimate = regenerationEstimate(four);
      if ('notEnough' in estimate) throw new Error(estimate.notEnough);
      expect(estimate.table[0]?.stems).toBeCloseTo(Number(TPA_UNADJ), 3);
    }
    expect(rows.length).toBeGreaterThan(400);
  });
});

describe('a plot in the 2013 census of the SCBI window (60 × 80 m, every stem of 1 cm and more)', () => {
  const stems = liveStems().map(({ dbh_mm }) => ({ dbh: { value: Number(dbh_mm), unit: 'mm' } as const }));
  /** A circle of the window's area, as the window is no circle and its trees are all known. */
  const window = {
    method: { is: 'fixed-radius', radius: Math.sqrt(4800 / Math.PI), unit: 'm' },
  } as const;

  // Computed from the census by another program: 407 live stems, 38.25 m²/ha, 157 of at least 5 in.
  it('has 407 live stems with 38.25 m²/ha', () => {
    expect(stems).toHaveLength(407);
    expect(plotBasalArea(window, stems, 'm2/ha')).toBeCloseTo(38.2527, 3);
    expect(plotStems(window, stems, 'stems/ha')).toBeCloseTo(407 / 0.48, 6);
  });

  it('has 157 stems of at least 5 in', () => {
    expect(stems.filter(({ dbh }) => lengthIn(dbh.value, dbh.unit, 'in') >= 5)).toHaveLength(157);
  });

  // A gauge of 4 m²/ha, on points half a metre apart, sees a tree from so many points as its circle has ground, so the
  // mean of counts times the factor is the basal area. Circles that leave the window come back at its other side.
  it('has the same basal area counted by an angle gauge from points all over it', () => {
    const method = { is: 'angle-gauge', factor: 4, unit: 'm2/ha' } as const;
    const trees = liveStems().map(({ gx, gy, dbh_mm }) => ({
      x: Number(gx) - 200,
      y: Number(gy) - 200,
      limit: Number(limitingDistance(method, { value: Number(dbh_mm), unit: 'mm' })),
    }));
    const around = (off: number, length: number) => Math.min(Math.abs(off), length - Math.abs(off));
    let counted = 0;
    let points = 0;
    for (let x = 0.25; x < 60; x += 0.5)
      for (let y = 0.25; y < 80; y += 0.5) {
        points += 1;
        counted += trees.filter(
          (tree) => Math.hypot(around(x - tree.x, 60), around(y - tree.y, 80)) <= tree.limit,
        ).length;
      }
    expect(Math.abs(((counted / points) * 4) / 38.2527 - 1)).toBeLessThan(0.005);
  });
});

describe('strata weighed by their area, against R', () => {
  type Call = Readonly<{
    what: string;
    note: string;
    input: Readonly<{ areas: number[]; samples: number[][]; level: number }>;
    result: Readonly<Record<'mean' | 'standardError' | 'degrees' | 'low' | 'high', number>>;
  }>;
  const file = new URL('../../fixtures/statistics/r-values.json', import.meta.url);
  const { values } = JSON.parse(readFileSync(file, 'utf8')) as { values: Call[] };
  const calls = values.filter(({ what }) => what === 'strata');

  it.each(calls.map((call) => [call.note, call] as const))('%s', (_, { input, result }) => {
    const strata = input.areas.map((area, index) => ({
      name: `block ${index + 1}`,
      area,
      values: input.samples[index] ?? [],
    }));
    const estimate = stratifiedEstimate(strata, input.level);
    if ('notEnough' in estimate) throw new Error(estimate.notEnough);
    for (const name of ['mean', 'standardError', 'degrees', 'low', 'high'] as const)
      expect(Math.abs(estimate[name] / result[name] - 1), name).toBeLessThan(1e-11);
    expect(estimate.samplingErrorPercent).toBeCloseTo(((result.high - result.mean) / result.mean) * 100, 8);
  });
});
