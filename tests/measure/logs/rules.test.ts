// What the log rules refuse, and how readings, lengths and long logs come to them.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  coneFrustum,
  doyle,
  evenSegments,
  huber,
  internationalFormula,
  internationalTable,
  newton,
  type ScalingDiameter,
  scalingDiameter,
  scalingLength,
  scribnerDecimalC,
  scribnerFormula,
  segmentsOf,
  segmentVolume,
  smalian,
  vermont,
  vermontDiameter,
  vermontSections,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

describe('outside what a rule knows there is no figure', () => {
  test.each([
    [scribnerDecimalC(21, 16), 'diameters of 6 to 20 in by whole inches, not 21 in'],
    [scribnerDecimalC(5, 16), 'not 5 in'],
    [scribnerDecimalC(10.5, 16), 'not 10.5 in'],
    [scribnerDecimalC(10, 15), 'lengths of 6, 8, 10, 12, 14, 16 ft, not 15 ft'],
    [internationalTable(25, 16), 'diameters of 6 to 24 in'],
    [internationalTable(24, 18), 'not 18 ft'],
    [internationalFormula(12, 22), 'a log length of 22 ft is over 20 ft'],
    [vermont(12, 14), 'a length of the section of 14 ft is over 12 ft'],
    [doyle(-1, 16), 'a small-end diameter of -1 in is under 0 in'],
    [doyle(Number.NaN, 16), 'the small-end diameter is missing'],
    [scribnerFormula(12, Number.POSITIVE_INFINITY), 'the log length is missing'],
    [smalian({ small: 10, large: -2, length: 16 }, 'cubic-feet'), 'a large-end diameter of -2 in'],
  ])('%#: it says which measure does not fit', (answer, words) => {
    expect(missing(answer)).toMatch(/^not enough data: /);
    expect(missing(answer)).toContain(words);
  });
});

describe('scaling diameter', () => {
  test('a tally of half inches gains on neither side', () => {
    let turn: 'down' | 'up' = 'down';
    let sum = 0;
    for (let log = 0; log < 10; log += 1) {
      const scaled: ScalingDiameter = given(scalingDiameter([12.25, 12.75], turn));
      sum += scaled.diameter;
      turn = scaled.next;
    }
    expect(sum).toBe(10 * 12.5);
  });

  test('a half inch is one however its two readings are written', () => {
    for (let tenth = 0; tenth <= 10; tenth += 1) {
      const readings = [12 + tenth / 10, 13 - tenth / 10] as const;
      expect(given(scalingDiameter(readings, 'down'))).toEqual({ diameter: 12, next: 'up' });
      expect(given(vermontDiameter((readings[0] + readings[1]) / 2, 'up')).diameter).toBe(13);
    }
  });

  test('is never more than half an inch from the mean', () => {
    const reading = fc.double({ min: 0, max: 60, noNaN: true });
    fc.assert(
      fc.property(reading, reading, fc.constantFrom('down' as const, 'up' as const), (one, other, turn) => {
        const { diameter } = given(scalingDiameter([one, other], turn));
        expect(Number.isInteger(diameter)).toBe(true);
        expect(Math.abs(diameter - (one + other) / 2)).toBeLessThanOrEqual(0.5 + 1e-8);
      }),
    );
  });
});

describe('scaling length', () => {
  test('too short and too long are said, not rounded away', () => {
    expect(missing(scalingLength(8.3))).toContain('too short for 8 ft and 4 in of trim');
    expect(missing(scalingLength(18.4))).toContain('scale it in segments');
    expect(missing(scalingLength(-1))).toContain('under 0 ft');
  });

  test('trim and range can be another buyer’s', () => {
    const buyer = { trimInches: 6, shortestFeet: 10, longestFeet: 20 };
    expect(scalingLength(20.5, buyer)).toBe(20);
    expect(missing(scalingLength(20.4, { ...buyer, longestFeet: 16 }))).toContain('segments');
  });
});

describe('long logs', () => {
  test('segments add up, are even, differ by 2 ft at most, and none is over 16 ft', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (pairs) => {
        const lengths = given(evenSegments(2 * pairs));
        expect(lengths.reduce((sum, one) => sum + one, 0)).toBe(2 * pairs);
        expect(Math.max(...lengths)).toBeLessThanOrEqual(16);
        expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThanOrEqual(2);
        expect([...lengths].sort((one, other) => one - other)).toEqual(lengths);
      }),
    );
  });

  test('odd or no length is refused', () => {
    expect(missing(evenSegments(17))).toContain('even feet');
    expect(missing(evenSegments(0))).toContain('under 2 ft');
  });

  test('each part is scaled at its own small end, by the taper that was given', () => {
    // 12 in at the small end and 0.125 in/ft: the second part of a 32-ft log begins 16 ft down, at 14 in.
    const { segments, next } = given(segmentsOf(12, given(evenSegments(32)), { taper: 0.125, turn: 'down' }));
    expect(segments).toEqual([
      { diameter: 12, length: 16 },
      { diameter: 14, length: 16 },
    ]);
    expect(next).toBe('down');
    expect(number(segmentVolume(segments, doyle))).toBe(64 + 100);
  });

  test('a long log by Vermont’s statute is its sections from the top', () => {
    const { segments } = given(segmentsOf(10, given(vermontSections(20)), { taper: 1 / 6, turn: 'down' }));
    // 10 in × 12 ft: 50 bf; 12 in × 8 ft: 48 bf.
    expect(number(segmentVolume(segments, vermont))).toBeCloseTo(98, 9);
  });

  test('a part that the rule does not know fails the log, in words', () => {
    const { segments } = given(segmentsOf(19, [16, 16], { taper: 0.125, turn: 'down' }));
    expect(missing(segmentVolume(segments, scribnerDecimalC))).toContain('not 21 in');
    expect(missing(segmentVolume([], doyle))).toContain('no segment');
    expect(missing(segmentsOf(12, [16], { taper: -1, turn: 'down' }))).toContain('taper');
  });
});

describe('cubic volume', () => {
  const diameter = fc.double({ min: 0.1, max: 60, noNaN: true });
  const length = fc.double({ min: 0.1, max: 60, noNaN: true });

  test('Smalian ≥ cone ≥ Huber where the middle is the mean of the ends, and Newton is the cone', () => {
    fc.assert(
      fc.property(diameter, diameter, length, (small, large, feet) => {
        const ends = { small, large, length: feet };
        const middle = (small + large) / 2;
        const bySmalian = number(smalian(ends, 'cubic-feet'));
        const byCone = number(coneFrustum(ends, 'cubic-feet'));
        const byHuber = number(huber({ middle, length: feet }, 'cubic-feet'));
        const byNewton = number(newton({ ...ends, middle }, 'cubic-feet'));
        const grain = bySmalian * 1e-12;
        expect(bySmalian).toBeGreaterThanOrEqual(byCone - grain);
        expect(byCone).toBeGreaterThanOrEqual(byHuber - grain);
        expect(Math.abs(byNewton - byCone)).toBeLessThanOrEqual(grain);
        // Arithmetic on the three definitions: Smalian − Huber = 3/2 (Smalian − Newton).
        expect(Math.abs(bySmalian - byHuber - 1.5 * (bySmalian - byNewton))).toBeLessThanOrEqual(10 * grain);
      }),
    );
  });

  test('is the same wood in inches and in centimetres', () => {
    fc.assert(
      fc.property(diameter, diameter, length, (small, large, feet) => {
        const imperial = number(smalian({ small, large, length: feet }, 'cubic-feet'));
        const metric = { small: small * 2.54, large: large * 2.54, length: feet * 0.3048 };
        expect((imperial * 0.3048 ** 3) / number(smalian(metric, 'cubic-metres'))).toBeCloseTo(1, 10);
      }),
    );
  });
});
