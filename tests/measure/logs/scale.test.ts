// A log as the tape has it: readings, trim, even feet, parts; and what is refused instead of scaled.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  BOARD_SCALES,
  type BoardScale,
  cubicLog,
  isBoardScale,
  isNotEnough,
  scaleLog,
  scaleName,
  scaleRule,
} from '../../../src/measure/index.ts';
import { given, missing } from '../figures.ts';

const sixteen = { readings: [12.2, 12.6] as const, length: 16 + 4 / 12 };

describe('a log by every rule', () => {
  test.each(BOARD_SCALES)('%s keeps its rule, and names method and source', (scale) => {
    const { volume } = given(scaleLog(sixteen, { scale, taper: 0.125 }, 'down'));
    expect(volume).toMatchObject({ rule: scaleRule(scale), unit: 'bf' });
    expect(volume.method).toContain('to the nearest inch');
    expect(volume.source).not.toBe('');
    expect(scaleName(scale)).not.toBe('');
  });

  test('the printed table and the formula of International are two ways under one rule', () => {
    expect(scaleRule('international-table')).toBe(scaleRule('international-quarter-inch'));
    expect(scaleName('international-table')).not.toBe(scaleName('international-quarter-inch'));
  });

  test('a word that is no rule is not taken for one', () => {
    expect(['toString', 'Doyle', ''].some(isBoardScale)).toBe(false);
  });
});

describe('exact half inches', () => {
  // Doyle table (tinytimbers.com): 12 in × 16 ft 64; 13 in by the formula, (9/4)² · 16 = 81.
  test('go down and up in turn, and hand the turn to the next log', () => {
    const log = { ...sixteen, readings: [12, 13] as const };
    const first = given(scaleLog(log, { scale: 'doyle' }, 'down'));
    expect([first.volume.value, first.next]).toEqual([64, 'up']);
    const second = given(scaleLog(log, { scale: 'doyle' }, first.next));
    expect([second.volume.value, second.next]).toEqual([81, 'down']);
  });
});

describe('by Vermont', () => {
  // 9 V.S.A. § 2693: D · D / 2 for 12 ft, in 12-ft sections from the top end; no trim is named there.
  test('a log of 20 ft, 12 in at the top and 2 in thicker 12 ft down, is 72 and 8/12 of 98 bf', () => {
    const log = { readings: [12] as const, length: 20 };
    const { volume, length } = given(scaleLog(log, { scale: 'vermont', taper: 1 / 6 }, 'down'));
    expect(length).toBe(20);
    expect(volume.value).toBeCloseTo(72 + (98 * 8) / 12, 9);
  });

  test('a trim is taken off where one is named', () => {
    const log = { readings: [12] as const, length: 12.5 };
    expect(given(scaleLog(log, { scale: 'vermont', trim: 6 }, 'down')).volume.value).toBeCloseTo(72, 9);
    expect(missing(scaleLog(log, { scale: 'vermont', trim: 160 }, 'down'))).toContain('under 0 ft');
  });
});

describe('there is no figure', () => {
  test.each<
    [string, { readings: [number] | [number, number]; length: number }, { scale: BoardScale }, string]
  >([
    ['under 8 ft', { readings: [14], length: 7 }, { scale: 'doyle' }, 'a log of 7 ft is too short for 8 ft'],
    ['for 8 ft without trim', { readings: [14], length: 8 }, { scale: 'doyle' }, 'and 4 in of trim'],
    ['of a long log without taper', { readings: [14], length: 33 }, { scale: 'doyle' }, 'give its taper'],
    ['for a diameter under 0', { readings: [14, -1], length: 16.5 }, { scale: 'doyle' }, 'under 0 in'],
    ['without a diameter', { readings: [Number.NaN], length: 16.5 }, { scale: 'doyle' }, 'is missing'],
    ['without a length', { readings: [14], length: Number.NaN }, { scale: 'doyle' }, 'is missing'],
    ['beyond a table', { readings: [40], length: 16.5 }, { scale: 'international-table' }, 'not 40 in'],
    ['under a table', { readings: [5.4], length: 16.5 }, { scale: 'scribner-decimal-c' }, 'not 5 in'],
  ])('%s', (_when, log, scaling, words) => {
    expect(missing(scaleLog(log, scaling, 'down'))).toContain(words);
  });
});

test('parts add up to the scaling length, which is what even feet and the trim leave of the log', () => {
  const scales = fc.constantFrom<BoardScale>('doyle', 'scribner', 'international-quarter-inch');
  fc.assert(
    fc.property(
      scales,
      fc.double({ min: 4, max: 40, noNaN: true }),
      fc.double({ min: 8.5, max: 70, noNaN: true }),
      fc.integer({ min: 0, max: 6 }),
      (scale, diameter, length, trim) => {
        const log = { readings: [diameter] as const, length };
        const scaled = given(scaleLog(log, { scale, trim, taper: 0.1 }, 'down'));
        const beyond = length - trim / 12 - scaled.length;
        expect(beyond).toBeGreaterThanOrEqual(-1e-9);
        expect(beyond).toBeLessThan(2);
        expect(scaled.segments.reduce((sum, part) => sum + part.length, 0)).toBe(scaled.length);
        expect(scaled.segments.every((part) => part.length % 2 === 0 && part.length <= 16)).toBe(true);
        expect(Math.abs((scaled.segments[0]?.diameter ?? Number.NaN) - diameter)).toBeLessThanOrEqual(
          0.5 + 1e-8,
        );
      },
    ),
  );
});

test('a thicker or a longer log never scales less', () => {
  const diameter = fc.double({ min: 4, max: 40, noNaN: true });
  const feet = fc.double({ min: 8.5, max: 17.9, noNaN: true });
  fc.assert(
    fc.property(diameter, diameter, feet, feet, (one, other, some, more) => {
      const bf = (reading: number, length: number) =>
        given(scaleLog({ readings: [reading], length }, { scale: 'doyle' }, 'down')).volume.value;
      const small = bf(Math.min(one, other), Math.min(some, more));
      expect(bf(Math.max(one, other), Math.max(some, more))).toBeGreaterThanOrEqual(small);
    }),
  );
});

test('solid wood wants as many diameters as its method takes', () => {
  const one = { diameters: [12], length: 16 };
  expect(missing(cubicLog(one, 'smalian', 'cubic-feet'))).toBe(
    'not enough data: smalian takes 2 diameters; 1 were given',
  );
  expect(isNotEnough(cubicLog(one, 'huber', 'cubic-feet'))).toBe(false);
});
