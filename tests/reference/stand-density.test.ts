/** Basal area, mean diameter and density against published and computed examples. Status words as in log-rules. */
import { describe, expect, test } from 'vitest';
import {
  basalArea,
  curtisRelativeDensity,
  isNotEnough,
  type NotEnough,
  quadraticMeanDiameter,
  sdiByQmd,
  sdiBySummation,
  sdiOf,
  standMeasures,
  type Tally,
  totalBasalArea,
} from '../../src/measure/index.ts';

function found(figure: Readonly<{ value: number }> | NotEnough): number {
  if (isNotEnough(figure)) throw new Error(figure.notEnough);
  return figure.value;
}

test('the factor of basal area is 0.00545415391 in ft² and inches (COMPUTED), 0.00007853982 in m² and cm', () => {
  expect(basalArea(1, 'in', 'ft2')).toBeCloseTo(0.00545415391, 11);
  expect(basalArea(1, 'cm', 'm2')).toBeCloseTo(0.00007853982, 11);
});

describe('Reineke stand density index (larsendr.github.io/sdi.html)', () => {
  test('200 stems/ac of 12.3 in are 278.8 (SEEN; COMPUTED 278.8224)', () => {
    const index = sdiOf(200, { value: 12.3, unit: 'in' }, '10 in');
    expect(index).toBeCloseTo(278.8, 1);
    expect(index).toBeCloseTo(278.8224, 4);
  });
  test('494.1 stems/ha of 31 cm against 25.4 cm are 680.2 (SEEN; COMPUTED 680.287)', () => {
    const index = sdiOf(494.1, { value: 31, unit: 'cm' }, '25.4 cm');
    expect(Math.abs(index - 680.2)).toBeLessThan(0.1);
    expect(index).toBeCloseTo(680.287, 3);
  });
  test('the same stand against 25 cm would be 697.84: another index (COMPUTED)', () => {
    expect(sdiOf(494.1, { value: 31, unit: 'cm' }, '25 cm')).toBeCloseTo(697.84, 2);
  });
  test('10 in and 25.4 cm are one reference', () => {
    expect(sdiOf(200, { value: 12.3, unit: 'in' }, '25.4 cm')).toBeCloseTo(278.8224, 4);
  });
});

describe('a tally of 171 stems on one acre (COMPUTED by an independent script)', () => {
  const tally: Tally = {
    unit: 'in',
    stems: [
      { dbh: 4, count: 80 },
      { dbh: 8, count: 40 },
      { dbh: 12, count: 30 },
      { dbh: 16, count: 15 },
      { dbh: 20, count: 6 },
    ],
  };
  const asked = { system: 'inch', land: { area: 1, unit: 'ac' }, reference: '10 in' } as const;

  test('171 stems and 78.5398 ft² of basal area per acre', () => {
    const measures = standMeasures(tally, asked);
    expect(found(measures.stemsPerArea)).toBe(171);
    expect(found(measures.basalAreaPerArea)).toBeCloseTo(78.5398, 4);
    expect(found(totalBasalArea(tally, 'inch'))).toBeCloseTo(78.5398, 4);
  });
  test('quadratic mean diameter 9.17663 in', () => {
    expect(found(quadraticMeanDiameter(tally, 'inch'))).toBeCloseTo(9.17663, 5);
  });
  test('stand density index 148.9713 by mean diameter', () => {
    expect(found(sdiByQmd(tally, asked))).toBeCloseTo(148.9713, 4);
  });
  test('stand density index 136.6846 by summation (formula from memory: Long & Daniel 1990)', () => {
    expect(found(sdiBySummation(tally, asked))).toBeCloseTo(136.6846, 4);
  });
  test('relative density 25.9268 (formula from memory: Curtis)', () => {
    expect(found(curtisRelativeDensity(tally, asked.land))).toBeCloseTo(25.9268, 4);
  });
});
