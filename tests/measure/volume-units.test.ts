// Solid and stacked wood are two things, and per-area quantities turn only into their own kind.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  faceCords,
  perAreaIn,
  type SolidUnit,
  type StackedUnit,
  solid,
  solidFromStacked,
  solidIn,
  stacked,
  stackedIn,
} from '../../src/measure/index.ts';
import { given, missing, number } from './figures.ts';

const amount = fc.double({ min: 1e-3, max: 1e6, noNaN: true });

test('there and back gives the volume again', () => {
  const unit = fc.constantFrom<SolidUnit>('ft3', 'cunit', 'sawn-bf', 'm3');
  const pile = fc.constantFrom<StackedUnit>('stacked-ft3', 'cord', 'stere');
  fc.assert(
    fc.property(amount, unit, unit, pile, pile, (value, one, other, heap, otherHeap) => {
      expect(solidIn(solidIn(solid(value, one), other), one).value / value).toBeCloseTo(1, 12);
      expect(stackedIn(stackedIn(stacked(value, heap), otherHeap), heap).value / value).toBeCloseTo(1, 12);
    }),
  );
});

test('12 board feet of sawn lumber are exactly a cubic foot, a cord exactly 128', () => {
  expect(solidIn(solid(12, 'sawn-bf'), 'ft3').value).toBe(1);
  expect(stackedIn(stacked(2, 'cord'), 'stacked-ft3').value).toBe(256);
});

describe('stacked wood', () => {
  test('is not solid wood', () => {
    // @ts-expect-error A cord has air in it.
    solidIn(stacked(1, 'cord'), 'ft3');
    // @ts-expect-error A cubic metre of wood is no stere.
    stackedIn(solid(1, 'm3'), 'cord');
  });

  test('becomes solid by a stated solid content only, never more than the pile', () => {
    const share = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(amount, share, (value, content) => {
        const wood = given(
          solidFromStacked(stacked(value, 'stere'), { share: content, source: 'measured' }, 'm3'),
        );
        expect(wood.value / (value * content)).toBeCloseTo(1, 10);
        expect(wood.unit).toBe('m3');
      }),
    );
    const pile = stacked(1, 'cord');
    expect(missing(solidFromStacked(pile, undefined, 'ft3'))).toContain('the solid content of the pile');
    expect(missing(solidFromStacked(pile, { share: 1.1, source: 'x' }, 'ft3'))).toContain('at most 1');
    expect(missing(solidFromStacked(pile, { share: 0.6, source: '' }, 'ft3'))).toContain('comes from');
  });

  test('a face cord without the length of its sticks is refused', () => {
    expect(missing(faceCords(1, undefined))).toBe(
      'not enough data: the length of the sticks; a face cord is 4 × 8 ft by that length',
    );
    expect(missing(faceCords(1, { value: 0, unit: 'in' }))).toContain('length of the sticks');
    expect(missing(faceCords(-1, { value: 16, unit: 'in' }))).toContain('number of face cords');
    expect(number(faceCords(1, { value: 12, unit: 'in' }))).toBe(32);
  });
});

describe('per area of land', () => {
  test('there and back gives the quantity again', () => {
    fc.assert(
      fc.property(amount, (value) => {
        expect(perAreaIn(perAreaIn(value, 'ft2/ac', 'm2/ha'), 'm2/ha', 'ft2/ac') / value).toBeCloseTo(1, 12);
        expect(
          perAreaIn(perAreaIn(value, 'stems/ac', 'stems/ha'), 'stems/ha', 'stems/ac') / value,
        ).toBeCloseTo(1, 12);
        expect(perAreaIn(perAreaIn(value, 'ft3/ac', 'm3/ha'), 'm3/ha', 'ft3/ac') / value).toBeCloseTo(1, 12);
      }),
    );
  });

  test('basal area is no volume', () => {
    // @ts-expect-error Square feet per acre do not become cubic metres per hectare.
    perAreaIn(1, 'ft2/ac', 'm3/ha');
  });
});
