// A volume carries its rule: rules do not mix, neither where they are known beforehand nor where they are read.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addVolumes,
  convertVolume,
  doyle,
  internationalTable,
  isVolumeRule,
  roundedTo,
  ruleName,
  ruleUnit,
  scribnerFormula,
  smalian,
  sumVolumes,
  VOLUME_RULES,
  type Volume,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

const byDoyle = given(doyle(16, 16));
const byInternational = given(internationalTable(16, 16));

describe('adding volumes', () => {
  test('two logs by one rule add up, and keep rule, method and source', () => {
    const sum = given(addVolumes(byDoyle, given(doyle(12, 16))));
    expect(sum).toEqual({ ...byDoyle, value: 144 + 64 });
  });

  test('Doyle and International do not add: it does not compile, and where it is forced, it is refused', () => {
    // @ts-expect-error A volume by International is no volume by Doyle.
    const refused = addVolumes(byDoyle, byInternational);
    expect(missing(refused)).toBe(
      'not enough data: volumes by Doyle and International ¼-inch are not added; scale all of them by one rule, ' +
        'or give a conversion',
    );
  });

  test('volumes whose rules are read from a file are refused when running', () => {
    const read: readonly Volume[] = [byDoyle, byDoyle, byInternational];
    const [first = byDoyle, ...others] = read;
    expect(missing(addVolumes<Volume['rule']>(first, ...others))).toContain('Doyle and International');
  });

  test('a list of any length has a sum, an empty one has none', () => {
    const many = Array.from({ length: 200_000 }, () => byDoyle);
    expect(number(sumVolumes(many))).toBe(144 * 200_000);
    expect(missing(sumVolumes([]))).toContain('no volume to add');
    expect(missing(sumVolumes<Volume['rule']>([byDoyle, byInternational]))).toContain('are not added');
  });

  test('cubic feet by two methods are one measure, and both methods are named', () => {
    const one = given(smalian({ small: 10, large: 12, length: 16 }, 'cubic-feet'));
    const other = { ...one, method: 'Huber' };
    expect(given(addVolumes(one, other)).method).toBe('Smalian; Huber');
  });
});

describe('converting between rules', () => {
  const conversion = {
    from: 'doyle',
    to: 'international-quarter-inch',
    factor: 1.25,
    source: 'the mill’s own tally of 40 loads',
    date: '2026-10-01',
  } as const;

  test('happens by a given factor only, and says whose it is and of when', () => {
    const converted = given(convertVolume(byDoyle, conversion));
    expect(converted.value).toBe(180);
    expect(converted.rule).toBe('international-quarter-inch');
    expect(converted.method).toContain('× 1.25 of 2026-10-01');
    expect(converted.source).toContain('40 loads');
  });

  test('a factor from another rule, without source or of no size is refused', () => {
    // @ts-expect-error The conversion starts from Doyle.
    expect(missing(convertVolume(byInternational, conversion))).toContain('is from Doyle');
    expect(missing(convertVolume(byDoyle, { ...conversion, source: ' ' }))).toContain('source and date');
    expect(missing(convertVolume(byDoyle, { ...conversion, factor: 0 }))).toContain('a factor above 0');
    expect(missing(convertVolume(byDoyle, { ...conversion, factor: Number.NaN }))).toContain('NaN');
  });
});

test('every rule has a name and a unit, and words that are no rule are not taken for one', () => {
  for (const rule of VOLUME_RULES) {
    expect(ruleName(rule)).not.toBe('');
    expect(['bf', 'ft3', 'm3', 'cord']).toContain(ruleUnit(rule));
    expect(isVolumeRule(rule)).toBe(true);
  }
  expect(['Doyle', 'toString', ''].some(isVolumeRule)).toBe(false);
});

test('no formula gives less than nothing, and a larger log never scales less', () => {
  const diameter = fc.double({ min: 0, max: 60, noNaN: true });
  const length = fc.double({ min: 0, max: 20, noNaN: true });
  fc.assert(
    fc.property(diameter, diameter, length, (one, other, feet) => {
      const [small, large] = [Math.min(one, other), Math.max(one, other)];
      for (const rule of [doyle, scribnerFormula]) {
        expect(number(rule(small, feet))).toBeGreaterThanOrEqual(0);
        expect(number(rule(large, feet))).toBeGreaterThanOrEqual(number(rule(small, feet)));
      }
    }),
  );
});

test('rounding takes halves up', () => {
  expect([22.5, 22.49, 62.5].map((value) => roundedTo(value, 1))).toEqual([23, 22, 63]);
  expect([12.5, 17.4].map((value) => roundedTo(value, 5))).toEqual([15, 15]);
});
