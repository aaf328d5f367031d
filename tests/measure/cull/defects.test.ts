// Several defects of one log: each alone, and all together.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  doyle,
  isNotEnough,
  type LogDefect,
  scribnerDecimalC,
  smalian,
  takeDefects,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

const log = { length: 16, smallEnd: 16 };
const gross = given(doyle(16, 16));

const measure = fc.double({ min: 0.01, max: 60, noNaN: true });
const anyDefect = fc.oneof(
  fc.record({ is: fc.constant('length' as const), feet: measure }),
  fc.record({ is: fc.constant('sector' as const), degrees: fc.integer({ min: 0, max: 360 }), feet: measure }),
  fc.record({ is: fc.constant('sweep' as const), inches: measure }),
  fc.record({ is: fc.constant('crook' as const), inches: measure, feet: measure }),
  fc.record({ is: fc.constant('rot' as const), across: measure, other: measure, feet: measure }),
);
const anySquare = fc.record({
  is: fc.constant('square' as const),
  width: measure,
  height: measure,
  feet: measure,
});

test('whatever the defects, they take between nothing and the gross, and net and deduction make it up', () => {
  const scaled = [
    gross,
    given(scribnerDecimalC(16, 16)),
    given(smalian({ small: 16, large: 18, length: 16 }, 'cubic-feet')),
  ];
  fc.assert(
    fc.property(
      fc.constantFrom(...scaled),
      fc.array(anyDefect, { maxLength: 5 }),
      fc.array(anySquare, { maxLength: 2 }),
      (volume, defects, squares) => {
        const all: LogDefect[] = volume.rule === 'scribner-decimal-c' ? [...defects, ...squares] : defects;
        const { deducted, net } = given(takeDefects(volume, all, log).together);
        expect(deducted.value).toBeGreaterThanOrEqual(0);
        expect(deducted.value).toBeLessThanOrEqual(volume.value);
        expect(net.value + deducted.value).toBeCloseTo(volume.value, 9);
        expect(net.rule).toBe(volume.rule);
      },
    ),
  );
});

test('one more defect never leaves more', () => {
  fc.assert(
    fc.property(fc.array(anyDefect, { maxLength: 4 }), anyDefect, (defects, more) => {
      const left = (those: readonly LogDefect[]) => given(takeDefects(gross, those, log).together).net.value;
      expect(left([...defects, more])).toBeLessThanOrEqual(left(defects) + 1e-9);
    }),
  );
});

describe('each defect', () => {
  test('is shown in the rule of the log, as if it were the only one', () => {
    const { each } = takeDefects(
      gross,
      [
        { is: 'length', feet: 4 },
        { is: 'sweep', inches: 6 },
      ],
      log,
    );
    expect(each.map(number)).toEqual([36, 36]);
    expect(each).toMatchObject([
      { rule: 'doyle', unit: 'bf' },
      { rule: 'doyle', unit: 'bf' },
    ]);
  });

  test('that is rot wider than the small end less 2 in takes its length whole', () => {
    const { each } = takeDefects(gross, [{ is: 'rot', across: 14.1, other: 3, feet: 4 }], log);
    expect(each.map(number)).toEqual([36]);
  });

  test('that is held against the small end has no figure where that was not measured, and then there is no net', () => {
    const volume = given(smalian({ small: 16, large: 18, length: 16 }, 'cubic-feet'));
    const { each, together } = takeDefects(
      volume,
      [
        { is: 'sweep', inches: 4 },
        { is: 'length', feet: 4 },
      ],
      {
        length: 16,
        smallEnd: null,
      },
    );
    expect(each.map(isNotEnough)).toEqual([true, false]);
    expect(missing(together)).toContain('the diameter at the small end');
  });

  test('that is squared counts by Scribner only', () => {
    const square = { is: 'square', width: 6, height: 6, feet: 8 } as const;
    expect(missing(takeDefects(gross, [square], log).together)).toContain('by Doyle give the defect as rot');
    // From memory (the method is named in FSH 2409.11 ch. 20 s. 21): 7 · 7 · 8 / 15.
    const decimal = takeDefects(given(scribnerDecimalC(16, 16)), [square], log);
    expect(given(decimal.together).deducted.value).toBeCloseTo(26.1333, 4);
  });
});
