// Size classes and the stand table built on them.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  classesFrom,
  evenClasses,
  FIVE_CENTIMETRE_CLASSES,
  sizeClass,
  standTable,
  stemCount,
  type Tally,
  TWO_INCH_CLASSES,
  totalBasalArea,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

describe('size classes', () => {
  test.each([
    [7, 7, 9],
    [8.99, 7, 9],
    [9, 9, 11],
  ])('%d in is in the class from %d to under %d in', (value, lower, upper) => {
    expect(sizeClass({ value, unit: 'in' }, TWO_INCH_CLASSES)).toEqual({ lower, upper, unit: 'in' });
  });

  test('a diameter is not rounded up into a class', () => {
    expect(sizeClass({ value: 14.999, unit: 'cm' }, FIVE_CENTIMETRE_CLASSES)?.lower).toBe(10);
    expect(sizeClass({ value: 15, unit: 'cm' }, FIVE_CENTIMETRE_CLASSES)?.lower).toBe(15);
  });

  test('every limit in inches is reached by its reading in centimetres', () => {
    const whole = given(evenClasses({ from: 1, width: 1, unit: 'in', upTo: 60 }));
    for (let inch = 1; inch <= 60; inch += 1) {
      const reading = Number((inch * 2.54).toFixed(2));
      expect(sizeClass({ value: reading, unit: 'cm' }, whole)?.lower).toBe(inch);
      expect(sizeClass({ value: reading - 0.01, unit: 'cm' }, whole)?.lower).toBe(
        inch === 1 ? undefined : inch - 1,
      );
    }
  });

  test('a DBH of 0 is in the class from 0 on', () => {
    expect(sizeClass({ value: 0, unit: 'cm' }, FIVE_CENTIMETRE_CLASSES)?.lower).toBe(0);
  });

  test('below the lowest limit there is no class, the highest is open', () => {
    expect(sizeClass({ value: 0.9, unit: 'in' }, TWO_INCH_CLASSES)).toBeUndefined();
    expect(sizeClass({ value: 200, unit: 'in' }, TWO_INCH_CLASSES)).toEqual({
      lower: 59,
      upper: null,
      unit: 'in',
    });
  });

  test('limits of one’s own rise', () => {
    const own = given(classesFrom([5, 10, 16], 'in'));
    expect(sizeClass({ value: 12, unit: 'in' }, own)).toEqual({ lower: 10, upper: 16, unit: 'in' });
    expect(missing(classesFrom([5, 5], 'in'))).toContain('rising order');
    expect(missing(classesFrom([], 'in'))).toContain('rising order');
    expect(missing(evenClasses({ from: 0, width: 0, unit: 'in', upTo: 10 }))).toContain('width above 0');
  });
});

describe('stand table', () => {
  const tally: Tally = {
    unit: 'in',
    stems: [
      { dbh: 8, species: 'beech' },
      { dbh: 8.5, species: 'beech', count: 3 },
      { dbh: 8, species: 'ash' },
      { dbh: 14, species: 'beech' },
      { dbh: null, species: 'beech' },
    ],
  };

  test('has a row per class and species, small classes first, and says what has no DBH', () => {
    const table = given(standTable(tally, { classes: TWO_INCH_CLASSES, system: 'inch', land: null }));
    expect(table.rows.map(({ size, species, stems }) => [size?.lower ?? null, species, stems])).toEqual([
      [null, 'beech', 1],
      [7, 'ash', 1],
      [7, 'beech', 4],
      [13, 'beech', 1],
    ]);
    expect(table.rows[0]?.basalArea).toBeNull();
    expect(table.stemsUnit).toBe('stems');
  });

  test('per area divides by the land', () => {
    const land = { area: 0.5, unit: 'ha' } as const;
    const table = given(standTable(tally, { classes: FIVE_CENTIMETRE_CLASSES, system: 'metric', land }));
    expect(table.rows.reduce((sum, { stems }) => sum + stems, 0)).toBe(14);
    expect(table).toMatchObject({ stemsUnit: 'stems/ha', basalAreaUnit: 'm2/ha' });
    expect(
      missing(
        standTable(tally, { classes: TWO_INCH_CLASSES, system: 'inch', land: { area: -1, unit: 'ac' } }),
      ),
    ).toContain('above 0');
  });

  test('adds up to the tally whatever the classes are', () => {
    const stem = fc.record({
      dbh: fc.double({ min: 0, max: 80, noNaN: true }),
      species: fc.constantFrom('red oak', 'beech', null),
      count: fc.integer({ min: 1, max: 9 }),
    });
    const limits = fc.uniqueArray(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.array(stem, { maxLength: 60 }), limits, (stems, own) => {
        const all: Tally = { stems, unit: 'in' };
        const classes = given(
          classesFrom(
            [...own].sort((one, other) => one - other),
            'in',
          ),
        );
        const { rows } = given(standTable(all, { classes, system: 'inch', land: null }));
        expect(rows.reduce((sum, row) => sum + row.stems, 0)).toBe(stemCount(all));
        const area = rows.reduce((sum, row) => sum + (row.basalArea ?? Number.NaN), 0);
        expect(area).toBeCloseTo(number(totalBasalArea(all, 'inch')), 6);
      }),
    );
  });
});
