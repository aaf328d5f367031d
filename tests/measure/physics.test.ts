// Measures that no tree has are flagged with what was probably meant; the value stays as it was entered.
import { describe, expect, test } from 'vitest';
import { blackCherries } from '../../fixtures/black-cherry/trees.ts';
import { physicsFlags, type StemMeasures } from '../../src/measure/index.ts';

const tree: StemMeasures = {
  dbh: { value: 14, unit: 'in' },
  height: { value: 70, unit: 'ft' },
  merchantableHeight: { value: 40, unit: 'ft' },
  volumeFt3: 30,
  earlierDbh: { value: 13.5, unit: 'in' },
  stumpDiameter: { value: 18, unit: 'in' },
  decayDiameter: { value: 6, unit: 'in' },
};

test('a tree like a tree is not flagged, nor one of which nothing is known', () => {
  expect(physicsFlags(tree)).toEqual([]);
  expect(physicsFlags({})).toEqual([]);
});

test.each<[string, Partial<StemMeasures>, object]>([
  [
    'a DBH of 5005 in has lost its decimal point',
    { dbh: { value: 5005, unit: 'in' } },
    { check: 'dbh-too-large', field: 'dbh', likely: { value: 50.05, unit: 'in' } },
  ],
  [
    'a DBH of 360 in was read in millimetres',
    { dbh: { value: 360, unit: 'in' }, earlierDbh: { value: 14, unit: 'in' } },
    { check: 'dbh-too-large', likely: { value: 360, unit: 'mm' } },
  ],
  [
    'a height of 4 ft with a DBH is under breast height',
    { height: { value: 4, unit: 'ft' }, volumeFt3: 1, merchantableHeight: { value: 3, unit: 'ft' } },
    { check: 'under-breast-height', field: 'height', likely: { value: 4, unit: 'm' } },
  ],
  [
    'a merchantable height above the height',
    { merchantableHeight: { value: 75, unit: 'ft' } },
    { check: 'merchantable-above-height', field: 'merchantableHeight', likely: { value: 70, unit: 'ft' } },
  ],
  [
    'a stem that shrank from 14 to 12 in',
    { earlierDbh: { value: 16, unit: 'in' } },
    { check: 'shrunk', field: 'dbh', kept: { value: 14, unit: 'in' }, likely: null },
  ],
  [
    'a stem that shrank because inches were written as centimetres',
    { dbh: { value: 14.5, unit: 'cm' }, height: { value: 40, unit: 'ft' }, volumeFt3: 1 },
    { check: 'shrunk', likely: { value: 14.5, unit: 'in' } },
  ],
  [
    'decay wider than the stump',
    { decayDiameter: { value: 20, unit: 'in' } },
    { check: 'decay-wider-than-stump', field: 'decayDiameter', likely: { value: 18, unit: 'in' } },
  ],
])('%s', (_what, measures, expected) => {
  const flags = physicsFlags({ ...tree, ...measures });
  const flag = flags.find(({ check }) => check === (expected as { check: string }).check);
  expect(flag).toMatchObject(expected);
});

test('every flag keeps the value as it was entered and says why in a sentence', () => {
  const [flag] = physicsFlags({ dbh: { value: 5005, unit: 'in' } });
  expect(flag?.kept).toEqual({ value: 5005, unit: 'in' });
  expect(flag?.sentence).toBe('A DBH of 5005 in is more than 100 in.');
});

test('the cylinder on breast height is the limit: a stem of 14 in × 70 ft holds 74.8 ft³ at most', () => {
  const { dbh, height } = tree;
  const of = (volumeFt3: number) =>
    physicsFlags({ ...(dbh && { dbh }), ...(height && { height }), volumeFt3 });
  expect([7.5, 30, 74.8].flatMap(of)).toEqual([]);
  expect(of(74.9).map(({ check }) => check)).toEqual(['diameter-for-girth']);
  expect(of(7.4).map(({ check }) => check)).toEqual(['girth-for-diameter']);
});

test('a tape that reads a tenth less is no stem that shrank', () => {
  expect(physicsFlags({ dbh: { value: 13.9, unit: 'in' }, earlierDbh: { value: 14, unit: 'in' } })).toEqual(
    [],
  );
});

test('breast height is the one that was measured at', () => {
  const small = { dbh: { value: 1, unit: 'cm' }, height: { value: 1.35, unit: 'm' } } as const;
  expect(physicsFlags({ ...small, breastHeight: { value: 1.3, unit: 'm' } })).toEqual([]);
  expect(physicsFlags(small).map(({ check }) => check)).toEqual(['under-breast-height']);
});

describe('31 felled black cherries whose column is named girth', () => {
  test('taken at their word are stems thinner than their wood: all 31 are flagged, and put right', () => {
    for (const { dbhInches, heightFeet, volumeFt3 } of blackCherries) {
      // Somebody believes the column and divides by π.
      const dbh = { value: dbhInches / Math.PI, unit: 'in' } as const;
      const [flag] = physicsFlags({ dbh, height: { value: heightFeet, unit: 'ft' }, volumeFt3 });
      expect(flag?.check).toBe('diameter-for-girth');
      expect(flag?.likely?.value).toBeCloseTo(dbhInches, 10);
    }
  });

  test('read as diameters they are trees', () => {
    for (const { dbhInches, heightFeet, volumeFt3 } of blackCherries) {
      const dbh = { value: dbhInches, unit: 'in' } as const;
      expect(physicsFlags({ dbh, height: { value: heightFeet, unit: 'ft' }, volumeFt3 })).toEqual([]);
    }
  });

  test('a girth written as DBH is noticed by the wood in it: all 31', () => {
    for (const { dbhInches, heightFeet, volumeFt3 } of blackCherries) {
      const dbh = { value: dbhInches * Math.PI, unit: 'in' } as const;
      const [flag] = physicsFlags({ dbh, height: { value: heightFeet, unit: 'ft' }, volumeFt3 });
      expect(flag?.check).toBe('girth-for-diameter');
      expect(flag?.likely?.value).toBeCloseTo(dbhInches, 10);
    }
  });

  test('by height alone a diameter taken for a girth is noticed, and no tree is flagged that was read right', () => {
    const flagged = blackCherries.filter(({ dbhInches, heightFeet }) => {
      const height = { value: heightFeet, unit: 'ft' } as const;
      expect(physicsFlags({ dbh: { value: dbhInches, unit: 'in' }, height })).toEqual([]);
      return physicsFlags({ dbh: { value: dbhInches / Math.PI, unit: 'in' }, height }).length > 0;
    });
    expect(flagged).toHaveLength(31);
  });
});
