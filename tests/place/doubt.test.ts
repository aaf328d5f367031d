// Near a line nobody should say on which side a stem stands: in, out or doubtful.
import { describe, expect, test } from 'vitest';
import { destination, inRing, type LonLat, sideOfLine } from '../../src/place/index.ts';

const corner: LonLat = { lat: 44, lon: -72 };
const north = (from: LonLat, metres: number) => destination(from, 0, metres);
const east = (from: LonLat, metres: number) => destination(from, 90, metres);
/** 100 m on a side. */
const square = [corner, north(corner, 100), east(north(corner, 100), 100), east(corner, 100)];
const middleAt = (metresEast: number) => east(north(corner, 50), metresEast);

describe('a place and a ring', () => {
  // Plane geometry: the line is the western edge, the margin two standard errors.
  test.each([
    [10, 4, 'in', 8],
    [7.9, 4, 'doubtful', 8],
    [-7.9, 4, 'doubtful', 8],
    [-8.1, 4, 'out', 8],
    [0.5, 0.2, 'in', 0.4],
  ] as const)('%d m inside, known to %d m, is %s', (inside, standardError, side, margin) => {
    const answer = inRing(middleAt(inside), standardError, square);
    expect(answer.side).toBe(side);
    expect(answer.margin).toBeCloseTo(margin, 9);
    expect(answer.inside).toBeCloseTo(inside, 2);
  });

  test('the error of the line counts as that of the place does: 3 and 4 make 5', () => {
    expect(inRing(middleAt(9.9), 3, square, 4)).toMatchObject({ side: 'doubtful', margin: 10 });
    expect(inRing(middleAt(10.1), 3, square, 4).side).toBe('in');
  });

  test('a place whose error is not known is doubtful wherever it is', () => {
    expect(inRing(middleAt(50), undefined, square)).toMatchObject({
      side: 'doubtful',
      margin: Number.POSITIVE_INFINITY,
    });
  });
});

describe('a place and a line', () => {
  const line = [corner, north(corner, 100)] as const;

  test('east of a line that goes north is right of it, west of it left', () => {
    expect(sideOfLine(middleAt(10), 2, line)).toMatchObject({ side: 'right', margin: 4 });
    expect(sideOfLine(middleAt(-10), 2, line).side).toBe('left');
    expect(sideOfLine(middleAt(-10), 2, line).right).toBeCloseTo(-10, 2);
    expect(sideOfLine(middleAt(3.9), 2, line).side).toBe('doubtful');
  });

  test('a line of no length has no sides', () => {
    expect(sideOfLine(middleAt(10), 2, [corner, corner])).toMatchObject({ side: 'doubtful', right: 0 });
  });
});
