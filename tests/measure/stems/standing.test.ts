// Standing trees: where the equations stop, and heights from a curve.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blackCherries } from '../../../fixtures/black-cherry/trees.ts';
import {
  fitHeightCurve,
  formFactorVolume,
  heightOf,
  honerVolume,
  type MeasuredTree,
  SHAPES,
  standingBoardFeet,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

describe('outside its range an equation gives no figure', () => {
  test.each([
    [standingBoardFeet({ dbh: 9.9, logs: 2, formClass: 78 }, 'doyle'), 'a DBH of 9.9 in is under 10 in'],
    [standingBoardFeet({ dbh: 20, logs: 0.5, formClass: 78 }, 'doyle'), 'under 1 logs of 16 ft'],
    [standingBoardFeet({ dbh: 20, logs: 2, formClass: 95 }, 'scribner'), 'over 90 %'],
    [honerVolume('black cherry', { dbh: 12, height: 70 }), 'no coefficients of Honer'],
    [honerVolume('toString', { dbh: 12, height: 70 }), 'no coefficients of Honer'],
    [honerVolume('red oak', { dbh: 50, height: 70 }), 'over 40 in'],
    [
      formFactorVolume({ dbh: 12, height: 70 }, { name: 'none', factor: 1.2, source: 'x' }),
      'form factor of 1.2',
    ],
  ])('%#: it says which measure is outside', (answer, words) => {
    expect(missing(answer)).toContain(words);
  });
});

test('board feet of a standing tree never fall as its form class rises, and are never below nothing', () => {
  const tree = fc.record({
    dbh: fc.double({ min: 10, max: 40, noNaN: true }),
    logs: fc.double({ min: 1, max: 6, noNaN: true }),
    formClass: fc.integer({ min: 65, max: 89 }),
  });
  fc.assert(
    fc.property(tree, fc.constantFrom('doyle' as const, 'scribner' as const), (one, rule) => {
      const better = { ...one, formClass: one.formClass + 1 };
      expect(number(standingBoardFeet(one, rule))).toBeGreaterThanOrEqual(0);
      expect(number(standingBoardFeet(better, rule))).toBeGreaterThanOrEqual(
        number(standingBoardFeet(one, rule)),
      );
    }),
  );
});

test('shapes of the same base and height are ordered as geometry has it', () => {
  const tree = { dbh: 12, height: 60 };
  const [paraboloid, cone, neiloid] = [SHAPES.paraboloid, SHAPES.cone, SHAPES.neiloid].map((shape) =>
    number(formFactorVolume(tree, shape)),
  );
  expect(paraboloid).toBeCloseTo((Math.PI / 8) * 60, 10);
  expect(cone).toBeCloseTo((Math.PI / 12) * 60, 10);
  expect(neiloid).toBeCloseTo((Math.PI / 16) * 60, 10);
});

describe('the height curve', () => {
  const cherries: readonly MeasuredTree[] = blackCherries.map(({ dbhInches, heightFeet }) => ({
    dbh: dbhInches,
    height: heightFeet,
  }));

  test('finds the coefficients that made the heights', () => {
    const coefficients = fc.record({
      b0: fc.double({ min: 3.5, max: 5, noNaN: true }),
      b1: fc.double({ min: -12, max: -1, noNaN: true }),
    });
    fc.assert(
      fc.property(coefficients, ({ b0, b1 }) => {
        const trees = [4, 6, 8, 10, 12, 14, 18, 24].map((dbh) => ({
          dbh,
          height: 4.5 + Math.exp(b0 + b1 / (dbh + 1)),
        }));
        const curve = given(fitHeightCurve(trees));
        expect(curve.b0).toBeCloseTo(b0, 8);
        expect(curve.b1).toBeCloseTo(b1, 6);
        expect(curve.rootMeanSquareError).toBeLessThan(1e-6);
      }),
    );
  });

  test('of 31 felled black cherries says on how many trees it rests and how far off they are', () => {
    const curve = given(fitHeightCurve(cherries));
    expect(curve).toMatchObject({ trees: 31, dbhFrom: 8.3, dbhTo: 20.6 });
    // R 4.2.2: m <- lm(log(Height - 4.5) ~ I(1 / (Girth + 1)), trees); h <- 4.5 + exp(fitted(m));
    // coef(m); sqrt(sum((trees$Height - h)^2) / 29); 4.5 + exp(predict(m, data.frame(Girth = 12)))
    expect(curve.b0).toBeCloseTo(4.49591244131386, 10);
    expect(curve.b1).toBeCloseTo(-3.13429625905321, 9);
    expect(curve.rootMeanSquareError).toBeCloseTo(5.47864124809832, 9);
    const figure = given(heightOf({ dbh: 12, height: null }, curve));
    expect(figure.value).toBeCloseTo(74.9436239107839, 9);
    expect(figure.method).toMatch(/31 trees, root mean square error \d\.\d ft/);
    expect(figure.source).toContain('from memory');
  });

  test('never speaks for a tree that was measured, nor for diameters it did not see', () => {
    const curve = fitHeightCurve(cherries);
    expect(heightOf({ dbh: 12, height: 51 }, curve)).toMatchObject({ value: 51, method: 'measured' });
    expect(heightOf({ dbh: 30, height: 51 }, fitHeightCurve([]))).toMatchObject({ value: 51 });
    expect(missing(heightOf({ dbh: 30, height: null }, curve))).toContain('8.3 to 20.6 in, not for 30 in');
    expect(missing(heightOf({ dbh: null, height: null }, curve))).toContain('neither height nor DBH');
    expect(missing(heightOf({ dbh: 12, height: null }, fitHeightCurve([])))).toContain('0 trees');
  });

  test.each([
    [cherries.slice(0, 7), '7 trees with DBH and height; a height curve needs 8'],
    [cherries.slice(5, 15), 'a height curve needs a range of 4 in'],
    [[...cherries, { dbh: 12, height: 4 }], 'not above breast height'],
    [cherries.map(({ dbh }) => ({ dbh, height: 200 - dbh })), 'do not rise with DBH'],
  ])('%#: is refused, in words, where it would mislead', (trees, words) => {
    expect(missing(fitHeightCurve(trees))).toContain(words);
  });
});
