import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { AreaUnit, LengthUnit } from '../../src/measure/index.ts';
import {
  AREA_UNITS,
  areaIn,
  basalArea,
  isAreaUnit,
  isLengthUnit,
  LENGTH_UNITS,
  lengthIn,
} from '../../src/measure/index.ts';

describe('lengths', () => {
  // International yard and pound agreement, 1959; US survey foot 1200/3937 m (Federal Register, 1959).
  test.each<[number, LengthUnit, number, LengthUnit]>([
    [1, 'ft', 0.3048, 'm'],
    [1, 'yd', 0.9144, 'm'],
    [1, 'in', 25.4, 'mm'],
    [12, 'in', 1, 'ft'],
    [3937, 'us-ft', 1200, 'm'],
    [1, 'ch', 66, 'ft'],
    [80, 'ch', 5280, 'ft'],
    [254, 'cm', 100, 'in'],
  ])('%d %s are exactly %d %s', (value, from, expected, to) => {
    expect(lengthIn(value, from, to)).toBe(expected);
    expect(lengthIn(expected, to, from)).toBe(value);
  });

  test('a State Plane coordinate read in the wrong foot is 2.5 ft off', () => {
    // 1,268,515.15 ft taken in one foot or the other differ by 0.77 m: arithmetic on the two definitions.
    const easting = 1_268_515.15;
    expect(lengthIn(easting, 'us-ft', 'm') - lengthIn(easting, 'ft', 'm')).toBeCloseTo(0.773, 3);
  });

  test('there and back gives the length again', () => {
    const unit = fc.constantFrom(...LENGTH_UNITS);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), unit, unit, (value, one, other) => {
        expect(lengthIn(lengthIn(value, one, other), other, one) / value).toBeCloseTo(1, 12);
      }),
    );
  });

  test('words that are no unit are not taken for one', () => {
    expect(['ft', 'us-ft', 'ch'].every(isLengthUnit)).toBe(true);
    expect(['feet', 'toString', '', 'ac'].some(isLengthUnit)).toBe(false);
    expect(['toString', 'acre', 'm'].some(isAreaUnit)).toBe(false);
  });
});

describe('areas', () => {
  test.each<[number, AreaUnit, number, AreaUnit]>([
    [1, 'ac', 43_560, 'ft2'],
    [1, 'ac', 4046.8564224, 'm2'],
    [1, 'ha', 10_000, 'm2'],
    [1, 'ft2', 0.09290304, 'm2'],
  ])('%d %s are exactly %d %s', (value, from, expected, to) => {
    expect(areaIn(value, from, to)).toBe(expected);
  });

  test('a square of 80 chains is 640 acres, and ten square chains are one', () => {
    // The section of the US public land survey.
    expect(areaIn(lengthIn(80, 'ch', 'ft') ** 2, 'ft2', 'ac')).toBe(640);
    expect(areaIn(10 * lengthIn(1, 'ch', 'ft') ** 2, 'ft2', 'ac')).toBe(1);
  });

  test('there and back gives the area again', () => {
    const unit = fc.constantFrom(...AREA_UNITS);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), unit, unit, (value, one, other) => {
        expect(areaIn(areaIn(value, one, other), other, one) / value).toBeCloseTo(1, 12);
      }),
    );
  });
});

describe('basal area', () => {
  test('is the 0.005454 d² of the trade, to the digits that factor has', () => {
    expect(basalArea(1)).toBeCloseTo(0.005454, 6);
    expect(basalArea(14)).toBeCloseTo(0.005454 * 14 ** 2, 3);
  });

  test('is 0.00007854 d² in square metres from centimetres', () => {
    expect(basalArea(100, 'cm', 'm2')).toBeCloseTo(0.7854, 4);
  });

  test('is one area whatever units it is asked in', () => {
    expect(areaIn(basalArea(14, 'in', 'ft2'), 'ft2', 'm2')).toBeCloseTo(basalArea(35.56, 'cm', 'm2'), 12);
  });
});
