/** A worked traverse: legs in, closure and ratio out, adjusted by the compass rule only when it is asked for. */
import { describe, expect, test } from 'vitest';
import { adjusted, traverse } from '../../src/place/index.ts';

// Worked by hand from the formulas of J. Mahun, Traverse computations D (jerrymahun.com), and of the compass rule there.
const legs = [
  { azimuth: 45, distance: 200 },
  { azimuth: 135, distance: 150 },
  { azimuth: 225, distance: 200 },
  { azimuth: 315, distance: 151 },
];

describe('legs 045 200, 135 150, 225 200, 315 151', () => {
  const measured = traverse(legs);

  test('have a perimeter of 701 and miss their start by 1.0000 at 315°: 1 in 701', () => {
    expect(measured.perimeter).toBe(701);
    expect(measured.misclosure.distance).toBeCloseTo(1, 4);
    expect(measured.misclosure.azimuth).toBeCloseTo(315, 6);
    expect(measured.misclosure.ratio).toBeCloseTo(701, 3);
  });

  test('latitudes and departures are those of the sines and cosines of 45°', () => {
    // 200 cos 45° = 141.4214, 150 cos 135° = -106.0660, 151 cos 315° = 106.7731.
    expect(measured.legs.map(({ latitude }) => Number(latitude.toFixed(4)))).toEqual([
      141.4214, -106.066, -141.4214, 106.7731,
    ]);
    expect(measured.legs.map(({ departure }) => Number(departure.toFixed(4)))).toEqual([
      141.4214, 106.066, -141.4214, -106.7731,
    ]);
  });

  test('are not adjusted unless it is asked for: the sums stay as measured', () => {
    expect(measured.misclosure.latitude).toBeCloseTo(Math.SQRT1_2, 4);
    expect(measured.misclosure.departure).toBeCloseTo(-Math.SQRT1_2, 4);
  });

  test('adjusted by the compass rule they close, with corners and area of the worked example', () => {
    const shut = adjusted(measured);
    expect(shut.misclosure.distance).toBeCloseTo(0, 9);
    const corners = shut.corners.map(({ east, north }) => [
      Number(east.toFixed(4)),
      Number(north.toFixed(4)),
    ]);
    expect(corners).toEqual([
      [0, 0],
      [141.6231, 141.2196],
      [247.8404, 35.0023],
      [106.6208, -106.6208],
    ]);
    expect(shut.area).toBeCloseTo(30_099.857, 3);
  });
});

test('a rectangle of 200 by 150 closes exactly, and encloses 30,000', () => {
  const shut = traverse(legs.map((leg, index) => (index === 3 ? { ...leg, distance: 150 } : leg)));
  expect(shut.misclosure).toMatchObject({ distance: 0, azimuth: undefined, ratio: Number.POSITIVE_INFINITY });
  expect(shut.area).toBeCloseTo(30_000, 6);
});

test('80 chains square are 640 acres: 10 square chains to the acre', () => {
  // A forestry exercise (studylib 8387813).
  const square = [0, 90, 180, 270].map((azimuth) => ({ azimuth, distance: 80 }));
  expect(traverse(square).area / 10).toBeCloseTo(640, 9);
});
