// Basal area, mean diameter, densities, and the four columns of a cut.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Columns,
  curtisRelativeDensity,
  fromFloor,
  isNotEnough,
  type MeasuresAsked,
  quadraticMeanDiameter,
  type StandMeasures,
  sdiByQmd,
  sdiBySummation,
  speciesMix,
  standColumns,
  standMeasures,
  type Tallied,
  type Tally,
  totalBasalArea,
  withDbh,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

const perAcre: MeasuresAsked = { system: 'inch', land: { area: 2, unit: 'ac' }, reference: '10 in' };

const stem = fc.record({
  dbh: fc.double({ min: 1, max: 40, noNaN: true }),
  species: fc.constantFrom('red oak', 'beech', null),
  count: fc.integer({ min: 1, max: 30 }),
});
const stems = fc.array(stem, { minLength: 1, maxLength: 40 });

function inches(list: readonly Tallied[]): Tally {
  return { stems: list, unit: 'in' };
}

describe('stand density index', () => {
  test('by summation is never above the index by mean diameter', () => {
    fc.assert(
      fc.property(stems, (list) => {
        const byQmd = number(sdiByQmd(inches(list), perAcre));
        expect(number(sdiBySummation(inches(list), perAcre))).toBeLessThanOrEqual(byQmd * (1 + 1e-12));
      }),
    );
  });

  test('is the same by both when all stems are alike', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 40, noNaN: true }),
        fc.integer({ min: 1, max: 500 }),
        (dbh, count) => {
          const tally = inches([{ dbh, count }]);
          expect(number(sdiBySummation(tally, perAcre)) / number(sdiByQmd(tally, perAcre))).toBeCloseTo(
            1,
            10,
          );
        },
      ),
    );
  });

  test('is named with its reference diameter, and 25 cm is not 10 in', () => {
    const tally = inches([{ dbh: 12, count: 100 }]);
    const ten = given(sdiByQmd(tally, perAcre));
    const other = given(sdiByQmd(tally, { ...perAcre, reference: '25 cm' }));
    expect(ten.method).toContain('reference 10 in');
    expect(other.method).toContain('reference 25 cm');
    expect(other.value).toBeGreaterThan(ten.value);
  });

  test('needs land, and stems with a DBH', () => {
    const without = { system: 'inch', reference: '10 in' } as const;
    expect(missing(sdiByQmd(inches([{ dbh: 12 }]), without))).toContain('the area');
    expect(missing(sdiBySummation(inches([{ dbh: null }]), perAcre))).toContain('1 of 1 stem has no DBH');
    expect(missing(sdiByQmd(inches([{ dbh: 9 }]), { ...perAcre, land: { area: 0, unit: 'ac' } }))).toContain(
      'above 0',
    );
  });
});

describe('nothing left', () => {
  test('has no stems, no basal area, densities of 0 and no mean diameter', () => {
    const measures = standMeasures(inches([]), perAcre);
    expect(number(measures.stems)).toBe(0);
    expect(number(measures.basalAreaPerArea)).toBe(0);
    expect(number(measures.sdiByQmd)).toBe(0);
    expect(number(measures.sdiBySummation)).toBe(0);
    expect(missing(measures.quadraticMeanDiameter)).toContain('there is no stem');
    expect(missing(curtisRelativeDensity(inches([]), perAcre.land))).toContain('there is no stem');
  });
});

describe('stems without a DBH', () => {
  const tally = inches([{ dbh: 10 }, { dbh: null, count: 2 }]);

  test('are counted, and leave basal area and means without a figure rather than too small', () => {
    const measures = standMeasures(tally, perAcre);
    expect(number(measures.stems)).toBe(3);
    for (const figure of [measures.basalArea, measures.quadraticMeanDiameter, measures.sdiByQmd]) {
      expect(missing(figure)).toBe('not enough data: 2 of 3 stems have no DBH');
    }
  });

  test('can be left out when that is what is asked', () => {
    expect(number(totalBasalArea(withDbh(tally), 'inch'))).toBeCloseTo(0.545415, 6);
    expect(fromFloor(tally, { value: 4, unit: 'in' }).stems).toEqual([{ dbh: 10 }]);
  });
});

test('a DBH floor is compared unrounded, and belongs to what it lets in', () => {
  const list = inches([{ dbh: 3.99 }, { dbh: 4 }, { dbh: 4.01 }]);
  expect(fromFloor(list, { value: 4, unit: 'in' }).stems.map(({ dbh }) => dbh)).toEqual([4, 4.01]);
  expect(fromFloor(list, { value: 10.16, unit: 'cm' }).stems.map(({ dbh }) => dbh)).toEqual([4, 4.01]);
});

test('measures are the same stand in either system of units', () => {
  fc.assert(
    fc.property(stems, (list) => {
      const cm = { stems: list.map((one) => ({ ...one, dbh: one.dbh * 2.54 })), unit: 'cm' as const };
      const metric = standMeasures(cm, { ...perAcre, system: 'metric', reference: '25.4 cm' });
      const imperial = standMeasures(inches(list), perAcre);
      const factors: readonly (readonly [keyof StandMeasures, number])[] = [
        ['basalArea', 0.3048 ** 2],
        ['quadraticMeanDiameter', 2.54],
        ['stemsPerArea', 1 / 0.40468564224],
        ['basalAreaPerArea', 0.229568411],
        ['sdiByQmd', 1 / 0.40468564224],
        ['sdiBySummation', 1 / 0.40468564224],
        ['curtisRelativeDensity', 1],
      ];
      for (const [of, factor] of factors) {
        expect(number(metric[of]) / number(imperial[of])).toBeCloseTo(factor, 7);
      }
    }),
  );
});

describe('before, removed, lost otherwise, left', () => {
  /** Each stem goes to one of the three lists. */
  const fates = fc.array(
    fc.tuple(stem, fc.constantFrom('removed' as const, 'lost' as const, 'left' as const)),
    {
      minLength: 1,
      maxLength: 40,
    },
  );

  function listsOf(all: readonly (readonly [Tallied, 'removed' | 'lost' | 'left'])[]): Columns<Tally> {
    const of = (fate: string) => inches(all.filter(([, at]) => at === fate).map(([one]) => one));
    return {
      before: inches(all.map(([one]) => one)),
      removed: of('removed'),
      lost: of('lost'),
      left: of('left'),
    };
  }

  test('stems and basal area add up across the columns', () => {
    fc.assert(
      fc.property(fates, (all) => {
        const columns = standColumns(listsOf(all), perAcre);
        for (const of of ['stems', 'basalArea', 'stemsPerArea', 'basalAreaPerArea'] as const) {
          const before = number(columns.before[of]);
          const parts = number(columns.removed[of]) + number(columns.lost[of]) + number(columns.left[of]);
          expect(parts / before).toBeCloseTo(1, 10);
        }
        expect(number(columns.unaccounted.stems)).toBe(0);
        expect(Math.abs(number(columns.unaccounted.basalArea))).toBeLessThan(1e-9);
      }),
    );
  });

  test('mean diameter and density of what is left are those of the stems left, not a difference', () => {
    fc.assert(
      fc.property(fates, (all) => {
        const lists = listsOf(all);
        const { left } = standColumns(lists, perAcre);
        expect(left.quadraticMeanDiameter).toEqual(quadraticMeanDiameter(lists.left, 'inch'));
        expect(left.sdiByQmd).toEqual(sdiByQmd(lists.left, perAcre));
      }),
    );
  });

  test('lists that do not partition the stand show how many stems are unaccounted for', () => {
    const lists = {
      before: inches([{ dbh: 10, count: 5 }]),
      removed: inches([{ dbh: 10 }]),
      lost: inches([]),
    };
    const columns = standColumns({ ...lists, left: inches([{ dbh: 10, count: 3 }]) }, perAcre);
    expect(number(columns.unaccounted.stems)).toBe(1);
    expect(number(columns.unaccounted.basalArea)).toBeCloseTo(0.545415, 6);
    const unknown = standColumns({ ...lists, left: inches([{ dbh: null }]) }, perAcre);
    expect(missing(unknown.unaccounted.basalArea)).toContain('no DBH');
  });
});

describe('species mix', () => {
  test('by stems and by basal area are two answers', () => {
    const mix = given(
      speciesMix(
        inches([{ dbh: 20, species: 'red oak' }, { dbh: 5, species: 'beech', count: 4 }, { dbh: 5 }]),
        'inch',
      ),
    );
    expect(mix.map(({ species }) => species)).toEqual(['red oak', 'beech', null]);
    expect(mix[0]).toMatchObject({ stems: 1, shareOfStems: 1 / 6 });
    expect(mix[0]?.shareOfBasalArea).toBeCloseTo(400 / 525, 12);
  });

  test('shares are of the whole', () => {
    fc.assert(
      fc.property(stems, (list) => {
        const mix = given(speciesMix(inches(list), 'metric'));
        expect(mix.reduce((sum, { shareOfStems }) => sum + shareOfStems, 0)).toBeCloseTo(1, 10);
        expect(mix.reduce((sum, { shareOfBasalArea }) => sum + shareOfBasalArea, 0)).toBeCloseTo(1, 10);
      }),
    );
    expect(given(speciesMix(inches([]), 'inch'))).toEqual([]);
    expect(isNotEnough(speciesMix(inches([{ dbh: null }]), 'inch'))).toBe(true);
  });
});
