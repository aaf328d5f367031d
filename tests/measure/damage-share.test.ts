// How many leave trees were hurt. The limit of 100 in² "or more": Good Forestry in the Granite State, 2010, ch. 5.4
// (seen); 100 in² are 645.16 cm² and 64 in² 412.9 cm² exactly, by the inch of 2.54 cm.
import { array, assert, constantFrom, double, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  damageByGroup,
  damageShare,
  type LeaveTree,
  type WoundArea,
} from '../../src/measure/damage-share.ts';
import type { AreaUnit } from '../../src/measure/units.ts';

const tree = (dbh: number, ...wounds: (WoundArea | undefined)[]): LeaveTree => ({
  dbh: { value: dbh, unit: 'in' },
  damages: wounds.map((area) => (area === undefined ? {} : { area })),
});
const wound = (value: number, unit: AreaUnit): WoundArea => ({ value, unit });

describe('a wound against the limit of 100 in²', () => {
  it.each([
    [100, 'in2', true],
    [99.999, 'in2', false],
    [645.16, 'cm2', true],
    [645.15, 'cm2', false],
    [645, 'cm2', false],
    [100, 'cm2', false],
    [0.07, 'm2', true],
    [0.0645, 'm2', false],
    [0.7, 'ft2', true],
    [0.69, 'ft2', false],
  ] as const)('%d %s: at least the limit is %s', (value, unit, large) => {
    const share = damageShare([tree(12, wound(value, unit))]);
    expect(share.wounds).toEqual({ atLeast: large ? 1 : 0, under: large ? 0 : 1, unmeasured: 0 });
    expect(share.treesAtLeast).toBe(large ? 1 : 0);
  });

  it('is the same with the limit given in square centimetres', () => {
    const metric = wound(645.16, 'cm2');
    expect(damageShare([tree(12, wound(100, 'in2'))], metric).wounds.atLeast).toBe(1);
    expect(damageShare([tree(12, wound(99.9, 'in2'))], metric).wounds.atLeast).toBe(0);
  });

  it('can be another, such as 64 in² for small trees; the source says that it was given', () => {
    const share = damageShare([tree(6, wound(412.9, 'cm2'))], wound(64, 'in2'));
    expect(share.wounds.atLeast).toBe(0);
    expect(damageShare([tree(6, wound(412.91, 'cm2'))], wound(64, 'in2')).wounds.atLeast).toBe(1);
    expect(share.source).toContain('as given');
  });
});

describe('the share of leave trees that were damaged', () => {
  it('is by number one thing and by basal area another: one thick tree of four', () => {
    const share = damageShare([tree(20, wound(30, 'in2')), tree(10), tree(10), tree(10)]);
    expect(share).toMatchObject({ trees: 4, damaged: 1, byNumber: { share: 0.25 } });
    // 400 of 700, by the squares of the diameters.
    expect(share.byBasalArea).toBeCloseTo(4 / 7, 12);
  });

  it('counts a tree once however often it was hurt', () => {
    const share = damageShare([tree(12, wound(20, 'in2'), wound(120, 'in2'), wound(130, 'in2')), tree(12)]);
    expect(share).toMatchObject({
      damaged: 1,
      treesAtLeast: 1,
      wounds: { atLeast: 2, under: 1, unmeasured: 0 },
    });
  });

  it('counts damage without a measured wound as damage, and tells that it was not measured', () => {
    expect(damageShare([tree(12, undefined), tree(12)])).toMatchObject({
      damaged: 1,
      wounds: { atLeast: 0, under: 0, unmeasured: 1 },
      treesAtLeast: 0,
    });
  });

  it('is not given by basal area when a tree has no DBH, nor at all when there are no leave trees', () => {
    expect(damageShare([{ damages: [] }, tree(12)])).toMatchObject({
      byNumber: { share: 0 },
      byBasalArea: { notEnough: 'not enough data: 1 of 2 leave trees has no DBH.' },
    });
    expect(damageShare([])).toMatchObject({
      byNumber: { notEnough: 'not enough data: no leave tree is recorded.' },
      byBasalArea: { notEnough: expect.stringContaining('no leave tree') as string },
    });
  });

  it('stands for each group, and for all with the trees of no group', () => {
    const trees = [
      { ...tree(12, wound(120, 'in2')), group: 'G1' },
      { ...tree(12), group: 'G1' },
      { ...tree(12), group: 'G2' },
      tree(12),
    ];
    const { all, groups } = damageByGroup(trees);
    expect(all).toMatchObject({ trees: 4, damaged: 1 });
    expect(groups.get('G1')).toMatchObject({ trees: 2, damaged: 1, byNumber: { share: 0.5 } });
    expect(groups.get('G2')).toMatchObject({ trees: 1, damaged: 0 });
  });

  it('has wounds that add up, and never more large ones at a higher limit', () => {
    const someWound = record({
      value: double({ min: 0, max: 2000, noNaN: true }),
      unit: constantFrom('in2', 'cm2') as never,
    });
    assert(
      property(
        array(someWound, { maxLength: 8 }),
        double({ min: 0, max: 900, noNaN: true }),
        (wounds, limit) => {
          const trees = [tree(12, ...(wounds as WoundArea[]))];
          const one = damageShare(trees, wound(limit, 'in2'));
          const { atLeast, under, unmeasured } = one.wounds;
          expect(atLeast + under + unmeasured).toBe(wounds.length);
          expect(damageShare(trees, wound(limit * 1.5, 'in2')).wounds.atLeast).toBeLessThanOrEqual(atLeast);
        },
      ),
    );
  });

  it('refuses a wound, a limit and a DBH below 0, naming each', () => {
    expect(() => damageShare([tree(12, wound(-1, 'in2'))])).toThrow('wound: -1 cannot be');
    expect(() => damageShare([], wound(-5, 'in2'))).toThrow('limit: -5 cannot be');
    expect(() => damageShare([tree(-2)])).toThrow('dbh: -2 cannot be');
  });
});
