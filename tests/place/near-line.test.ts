/** The nearest side of a boundary against Turf (https://turfjs.org), a general reference library on the sphere. */
import * as turf from '@turf/turf';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { destination, type LonLat, nearSideOf } from '../../src/place/index.ts';

const centre: LonLat = { lon: -81.68, lat: 35.71 };
/** A boundary that winds in and out round its middle and never crosses itself. */
const winding = (corners: number, middle = centre): LonLat[] =>
  Array.from({ length: corners }, (_, corner) => {
    const azimuth = (corner * 360) / corners;
    return destination(middle, azimuth, 500 + 120 * Math.sin((7 * azimuth * Math.PI) / 180));
  });

const position = ({ lon, lat }: LonLat) => [lon, lat];
const place = fc
  .record({
    azimuth: fc.double({ min: 0, max: 360, noNaN: true }),
    metres: fc.double({ min: 0, max: 900, noNaN: true }),
  })
  .map(({ azimuth, metres }) => destination(centre, azimuth, metres));

describe.each([3, 4, 37, 400])('a boundary of %d corners', (count) => {
  const ring = winding(count);
  const nearSide = nearSideOf(ring);
  const closed = [...ring, ...ring.slice(0, 1)].map(position);

  test('has a stem inside where Turf has it, as far from the line as Turf measures', () => {
    fc.assert(
      fc.property(place, (at) => {
        const near = nearSide(at);
        const away = turf.pointToLineDistance(position(at), turf.lineString(closed), { units: 'meters' });
        // The sphere and the ellipsoid differ by up to 0.6 %, the plane by another part in two thousand.
        expect(Math.abs(Math.abs(near?.inside ?? Number.NaN) - away)).toBeLessThan(0.008 * away + 0.01);
        const inside = turf.booleanPointInPolygon(position(at), turf.polygon([closed]));
        if (away > 0.1) expect((near?.inside ?? 0) > 0).toBe(inside);
      }),
      { numRuns: 300, seed: 20260302 },
    );
  });

  test('is met at the side that Turf finds nearest, when a side is left out too', () => {
    const sides = ring.map((from, side) => [position(from), position(ring[(side + 1) % count] ?? from)]);
    const others = nearSideOf(ring, (side) => side % 3 !== 0);
    const awayFrom = (at: LonLat, side: number) =>
      turf.pointToLineDistance(position(at), turf.lineString(sides[side] ?? []), { units: 'meters' });
    fc.assert(
      fc.property(place, (at) => {
        for (const [judge, counts] of [
          [nearSide, () => true],
          [others, (side: number) => side % 3 !== 0],
        ] as const) {
          const counted = sides.flatMap((_, side) => (counts(side) ? [side] : []));
          const side = judge(at)?.side ?? -1;
          expect(counted).toContain(side);
          const least = Math.min(...counted.map((each) => awayFrom(at, each)));
          expect(awayFrom(at, side)).toBeLessThan(least * 1.008 + 0.01);
        }
      }),
      { numRuns: 40, seed: 20260303 },
    );
  });
});

describe('a boundary', () => {
  test('across the antimeridian is judged like any other', () => {
    const middle = { lon: 179.999, lat: -16.8 };
    const nearSide = nearSideOf(winding(40, middle));
    for (const azimuth of [0, 90, 180, 270])
      expect(nearSide(destination(middle, azimuth, 200))?.inside, `${azimuth}`).toBeGreaterThan(100);
    expect(nearSide(destination(middle, 90, 900))?.inside).toBeLessThan(-250);
  });

  test('of fewer than three corners has no inside, and one of which no side counts is none', () => {
    expect(nearSideOf([centre, destination(centre, 0, 10)])(centre)).toBeUndefined();
    expect(nearSideOf(winding(5), () => false)(centre)).toBeUndefined();
  });
});
