/**
 * Areas of openings and widths of filter strips against figures from outside.
 * - Regular polygons: n equal radii r give (n/2) r² sin(2π/n); octagon of r = 10 m 282.843 m², 16-gon 306.147 (geometry,
 *   computed). Ellipse of 20 by 14 m 219.911 m² (π/4 × length × width, computed).
 * - The octagon 10.0 % under a 16-gon of the same gap was seen in Zhu et al. 2009, Front. For. China 4:276-282 (abstract),
 *   for measured gaps; equal radii differ by 7.6 %, which is geometry alone.
 * - Filter strip by slope: 50 ft for 0-10 %, above that 2 ft more for each percent; example 27 % -> 84 ft (Minnesota filter
 *   strip guide, seen at docsbay.net/filter-strip-width-guide). The other widths follow from the same rule (computed).
 */
import { describe, expect, it, test } from 'vitest';
import { areaIn } from '../../src/measure/index.ts';
import {
  bufferWidth,
  ellipseArea,
  ellipseRing,
  geodesicArea,
  levelWidth,
  ringForm,
  spokeArea,
  spokeRing,
} from '../../src/place/index.ts';

const centre = { lon: -81.6834, lat: 35.7121 };
const equal = (count: number, metres: number) =>
  Array.from({ length: count }, (_, index) => ({ azimuthTrue: (index * 360) / count, metres }));

describe('an opening measured by spokes', () => {
  it.each([
    [8, 282.843],
    [16, 306.147],
  ])('%i spokes of 10 m bound %d m²', (count, area) => {
    expect(spokeArea(equal(count, 10))).toBeCloseTo(area, 3);
    // The area by the shoelace formula on the ellipsoid is the same to within a square centimetre.
    expect(geodesicArea(spokeRing(centre, equal(count, 10)))).toBeCloseTo(area, 2);
  });

  test('nearly a circle: 360 spokes of 10 m bound 314.14 of 314.159 m²', () => {
    expect(spokeArea(equal(360, 10))).toBeCloseTo(314.159 * (Math.sin(Math.PI / 180) / (Math.PI / 180)), 2);
  });

  test('comes out the same in whatever order the spokes were measured', () => {
    const spokes = [10, 14, 9, 12, 7].map((metres, index) => ({ azimuthTrue: index * 72 + 5, metres }));
    expect(spokeArea([...spokes].reverse())).toBeCloseTo(spokeArea(spokes), 9);
  });

  test('with the centre outside takes off what lies between the centre and the edge', () => {
    // A square of 10 m whose west side lies 5 m east of the centre.
    const corners = [
      [5, 5],
      [15, 5],
      [15, -5],
      [5, -5],
    ] as const;
    const spokes = corners.map(([x, y]) => ({
      azimuthTrue: (Math.atan2(x, y) * 180) / Math.PI,
      metres: Math.hypot(x, y),
    }));
    // Order by azimuth runs NE near, NE far, SE far, SE near only if the near corners come first and last.
    expect(spokeArea(spokes)).toBeCloseTo(100, 9);
  });
});

/** Acres of a circle so many feet across. */
const acresOf = (feet: number): number => areaIn(ellipseArea(feet * 0.3048, feet * 0.3048), 'm2', 'ac');

describe('an opening measured by two diameters', () => {
  test('an ellipse of 20 by 14 m has 219.911 m²', () => {
    expect(ellipseArea(20, 14)).toBeCloseTo(219.911, 3);
  });

  // Computed: π/4 D², 43,560 ft² to the acre, 1 ft = 0.3048 m; diameters to a tenth of a foot, areas as they are given.
  test.each([
    [74.5, 0.1],
    [117.8, 0.25],
    [166.5, 0.5],
    [235.5, 1],
    [333.1, 2],
  ])('a circle of %d ft across has %d ac', (feet, acres) => {
    expect(acresOf(feet)).toBeCloseTo(acres, 2);
  });

  test.each([
    [60, 0.065, 0.146, 0.26],
    [70, 0.088, 0.199, 0.353],
    [80, 0.115, 0.26, 0.462],
  ])('under a canopy of %d ft, one, one and a half and two tree heights across', (height, ...acres) => {
    for (const [at, times] of [1, 1.5, 2].entries())
      expect(acresOf(height * times)).toBeCloseTo(acres[at] ?? Number.NaN, 3);
  });

  test('two heights of a canopy of 20 m across has 1256.637 m², 0.3105 ac', () => {
    expect(ellipseArea(40, 40)).toBeCloseTo(1256.637, 3);
    expect(acresOf(40 / 0.3048)).toBeCloseTo(0.3105, 4);
  });

  test('is drawn with that area, that length and that direction', () => {
    const ring = ellipseRing(centre, { length: 20, width: 14, azimuthTrue: 30 });
    expect(geodesicArea(ring)).toBeCloseTo(219.911, 2);
    const form = ringForm(ring);
    expect(form?.length).toBeCloseTo(20, 1);
    expect(form?.width).toBeCloseTo(14, 1);
    expect(form?.orientation).toBeCloseTo(30, 3);
  });
});

describe('a filter strip by slope', () => {
  const foot = 0.3048;
  const rule = { base: 50 * foot, perPercent: 2 * foot, above: 10 };

  it.each([
    [0, 50],
    [10, 50],
    [11, 52],
    [20, 70],
    [27, 84],
    [40, 110],
    [60, 150],
    [100, 230],
  ])('on %i %% is %i ft wide, measured on the slope', (slope, feet) => {
    expect(bufferWidth(rule, slope) / foot).toBeCloseTo(feet, 9);
  });

  test('84 ft on a slope of 27 % are 81.1 ft on the map', () => {
    expect(levelWidth(84, { value: 27, unit: '%' })).toBeCloseTo(84 / Math.hypot(1, 0.27), 9);
    expect(levelWidth(84, { value: 27, unit: '%' })).toBeCloseTo(81.1, 1);
  });
});
