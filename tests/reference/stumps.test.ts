// DBH from stumps. The form is Raile's (1982) in a second-hand copy, the general hardwood coefficients stand in
// the US national inventory's species table (seen); the values for 14 in were computed from both by hand (reference:
// COMPUTED), not published.
import { describe, expect, it } from 'vitest';
import { dbhFromStump } from '../../src/measure/stumps.ts';
import { lengthIn } from '../../src/measure/units.ts';

describe('DBH from a stump 14 in across, general hardwood', () => {
  it.each([
    [0, 8.8919, 9.5457],
    [0.5, 10.4444, 11.2554],
    [1, 11.4435, 12.3626],
    [4.5, 14, 15.2209],
  ])('at %s ft it is %s in from outside bark and %s in from inside bark', (height, outside, inside) => {
    const at = { value: height, unit: 'ft' } as const;
    for (const [bark, wanted] of [
      ['outside', outside],
      ['inside', inside],
    ] as const)
      expect(dbhFromStump({ value: 14, unit: 'in', bark }, at)).toMatchObject({
        value: expect.closeTo(wanted, 4) as number,
        unit: 'in',
        method: expect.stringContaining('general hardwood (default)') as string,
      });
  });

  it.each([
    ['outside', 1.340427],
    ['inside', 1.243843],
  ] as const)('%s bark, half a foot up, the stump is %s times the DBH', (bark, ratio) => {
    const dbh = dbhFromStump({ value: 1, unit: 'in', bark }, { value: 6, unit: 'in' });
    expect(dbh).toMatchObject({ value: expect.closeTo(1 / ratio, 6) as number });
  });
});

describe('DBH from a stump', () => {
  it('is the same tree in centimetres', () => {
    const inches = dbhFromStump({ value: 14, unit: 'in', bark: 'inside' }, { value: 8, unit: 'in' });
    const metric = dbhFromStump(
      { value: lengthIn(14, 'in', 'cm'), unit: 'cm', bark: 'inside' },
      { value: lengthIn(8, 'in', 'cm'), unit: 'cm' },
    );
    if ('notEnough' in inches || 'notEnough' in metric) throw new Error('there is a figure');
    expect(metric.unit).toBe('cm');
    expect(metric.value).toBeCloseTo(lengthIn(inches.value, 'in', 'cm'), 10);
  });

  it('is not guessed without the height of the measurement, nor above breast height', () => {
    const stump = { value: 14, unit: 'in', bark: 'inside' } as const;
    expect(dbhFromStump(stump, undefined)).toEqual({
      notEnough: 'not enough data: the height at which the stump was measured is missing.',
    });
    expect(dbhFromStump(stump, { value: 5, unit: 'ft' })).toEqual({
      notEnough: 'not enough data: the form holds from the ground to 4.5 ft; the stump was measured at 5 ft.',
    });
  });

  it('refuses a diameter that is none', () => {
    expect(() => dbhFromStump({ value: 0, unit: 'in', bark: 'inside' }, { value: 1, unit: 'ft' })).toThrow(
      'diameter: 0 is no diameter',
    );
  });
});
