// What wedges lift and what they can, against the printed examples.
import { describe, expect, test } from 'vitest';
import { wedgeLimit, wedgeNeed } from '../../../src/felling/index.ts';

const FOOT = 0.3048;
const INCH = 0.0254;

describe('60 ft high, 18 in from the hinge to the back edge (Northern Woodlands, "Felling trees against the lean")', () => {
  const need = (feet: number) => wedgeNeed(feet * FOOT, 60 * FOOT, 18 * INCH, 0.375 * INCH);

  test('is 40 segments, and 3 ft of back lean want 0.9 in of lift', () => {
    expect(need(3).segments).toBeCloseTo(40, 9);
    expect(need(3).lift / INCH).toBeCloseTo(0.9, 9);
  });

  test('4 ft want 1.2 in, and 1.575 in of wedge with a saw cut of 3/8 in', () => {
    expect(need(4).lift / INCH).toBeCloseTo(1.2, 9);
    expect(need(4).thickness / INCH).toBeCloseTo(1.575, 9);
  });

  test('the plain lever gives 6.67 ft for 2 in, the table 5.5 ft, and the smaller holds', () => {
    const { lever, table, limit } = wedgeLimit(60 * FOOT, 1.5 * FOOT, 18 * INCH, 2 * INCH);
    expect(lever / FOOT).toBeCloseTo(6.6667, 4);
    expect((table ?? 0) / FOOT).toBeCloseTo(5.5, 9);
    expect(limit).toBe(table);
  });
});

// OSHA logging eTool, "Special techniques": segments and the most back lean in feet that 2 in of wedging overcomes.
test.each([
  [30, 4],
  [35, 4.5],
  [40, 5.5],
  [45, 6],
  [50, 6.5],
  [55, 7],
  [60, 8],
  [65, 9],
  [70, 9.5],
  [75, 10],
  [80, 11],
  [90, 12],
  [100, 13],
])('the table: %i segments, %d ft', (segments, feet) => {
  const table = (of: number) => wedgeLimit(of * FOOT, FOOT, 0.6 * FOOT, 2 * INCH).table;
  expect((table(segments) ?? 0) / FOOT).toBeCloseTo(feet, 9);
  // Rounded down: just under a row the row before it holds, and just over it still this one.
  expect((table(segments + 0.9) ?? 0) / FOOT).toBeCloseTo(feet, 9);
  expect(table(segments - 0.1) ?? 0).toBeLessThan(feet * FOOT);
});

test('examples of the same page: 100 ft and 24 in are 50 segments, 100 ft and 12 in are 100', () => {
  expect((wedgeLimit(100 * FOOT, 24 * INCH, 18 * INCH, 2 * INCH).table ?? 0) / FOOT).toBeCloseTo(6.5, 9);
  expect((wedgeLimit(100 * FOOT, 12 * INCH, 9 * INCH, 2 * INCH).table ?? 0) / FOOT).toBeCloseTo(13, 9);
});

test('below the first row there is no figure, and no limit to plan with', () => {
  expect(wedgeLimit(29 * FOOT, FOOT, 0.75 * FOOT, 2 * INCH)).toMatchObject({
    table: undefined,
    limit: undefined,
  });
});

test('where a deep notch leaves a long lever the lever is the smaller one', () => {
  const { lever, table, limit } = wedgeLimit(30 * FOOT, FOOT, 2 * FOOT, 2 * INCH);
  expect(lever).toBeLessThan(table ?? 0);
  expect(limit).toBe(lever);
});
