import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LonLat } from '../../src/place/index.ts';
import {
  destination,
  distanceAndAzimuth,
  distanceToRing,
  farFrom,
  geodesicArea,
  hull,
  planarArea,
  pointInRing,
  ringProblems,
} from '../../src/place/index.ts';

const CENTRE: LonLat = { lat: 35.75, lon: -81.5 };

/** A place so many metres east and north of the centre. */
function at(east: number, north: number): LonLat {
  return destination(CENTRE, (Math.atan2(east, north) * 180) / Math.PI, Math.hypot(east, north));
}

const square = [at(0, 0), at(30, 0), at(30, 30), at(0, 30)];

describe('what is wrong with a ring', () => {
  test('nothing, for a square either way round, closed or open', () => {
    expect(ringProblems(square)).toEqual([]);
    expect(ringProblems([...square].reverse())).toEqual([]);
    expect(ringProblems([...square, at(0, 0)])).toEqual([]);
  });

  test('nothing, for a corner that is pushed in', () => {
    expect(ringProblems([at(0, 0), at(30, 0), at(30, 30), at(15, 5), at(0, 30)])).toEqual([]);
  });

  test('nothing, for a point on a straight side or one that was stood on twice', () => {
    expect(ringProblems([at(0, 0), at(15, 0), at(15, 0), at(30, 0), at(30, 30)])).toEqual([]);
  });

  test.each([
    ['a bow-tie', [at(0, 0), at(30, 30), at(30, 0), at(0, 30)], /crosses or touches itself/],
    [
      'a figure of eight through one point',
      [at(0, 0), at(10, 10), at(20, 20), at(20, 0), at(10, 10), at(0, 20)],
      /crosses or touches/,
    ],
    [
      'a corner on the far side',
      [at(0, 0), at(30, 0), at(30, 30), at(15, 0), at(0, 30)],
      /crosses or touches/,
    ],
    ['a spike', [at(0, 0), at(30, 0), at(15, 0), at(15, 20)], /turns back on itself|crosses or touches/],
    ['two points', [at(0, 0), at(30, 0)], /at least three different points; this has 2/],
    ['two points, closed', [at(0, 0), at(30, 0), at(0, 0)], /this has 2/],
    ['nothing', [], /this has 0/],
    ['not a number', [...square, { lon: Number.NaN, lat: 35 }], /Point 5 .*no place on earth/],
    ['a longitude of 500', [...square, { lon: 500, lat: 35 }], /Point 5 .*no place on earth/],
    ['a latitude of 91', [{ lon: -81, lat: 91 }, ...square], /Point 1 .*no place on earth/],
  ])('%s', (_name, ring, problem) => {
    expect(ringProblems(ring).join(' ')).toMatch(problem);
  });
});

describe('inside and how far', () => {
  test('the middle is inside, a place beside is not, whichever way the ring runs', () => {
    expect(pointInRing(at(15, 15), square)).toBe(true);
    expect(pointInRing(at(15, 15), [...square].reverse())).toBe(true);
    expect(pointInRing(at(31, 15), square)).toBe(false);
    expect(distanceToRing(at(15, 15), square)).toBe(0);
  });

  test('the distance is to the nearest side, or to the nearest corner', () => {
    expect(distanceToRing(at(42, 15), square)).toBeCloseTo(12, 3);
    expect(distanceToRing(at(33, 34), square)).toBeCloseTo(5, 3);
  });

  test('a stem 600 m off is far from the block, one 400 m off is not', () => {
    expect(farFrom(at(630, 15), square, 500)).toBe(true);
    expect(farFrom(at(430, 15), square, 500)).toBe(false);
    expect(farFrom({ lat: -81.5, lon: 35.75 }, square, 500)).toBe(true);
  });
});

describe('the hull', () => {
  test('of a square with points inside is the square', () => {
    const edge = hull([at(10, 10), ...square, at(20, 5), at(15, 15)]);
    expect(edge).toHaveLength(4);
    expect(new Set(edge)).toEqual(new Set(square));
  });

  test('of points on one line, or of two, is none', () => {
    expect(hull([at(0, 0), at(30, 0)])).toEqual([]);
    expect(hull([])).toEqual([]);
  });

  const point = fc.tuple(fc.integer({ min: -100, max: 100 }), fc.integer({ min: -100, max: 100 }));

  test('holds every point and is a sound ring running counterclockwise', () => {
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 3, maxLength: 30, selector: String }), (offsets) => {
        const points = offsets.map(([east, north]) => at(east, north));
        const edge = hull(points);
        fc.pre(geodesicArea(edge) > 1);
        expect(ringProblems(edge)).toEqual([]);
        for (const each of points) expect(distanceToRing(each, edge)).toBeLessThan(1e-3);
        expect(signedArea(edge)).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });

  function signedArea(ring: readonly LonLat[]): number {
    return ring.reduce((sum, { lon, lat }, position) => {
      const next = ring[(position + 1) % ring.length] ?? { lon, lat };
      return sum + (lon * next.lat - next.lon * lat);
    }, 0);
  }
});

describe('areas', () => {
  /** An opening as spokes from its middle: azimuths in order, so that it never crosses itself. */
  const opening = fc.array(fc.double({ min: 5, max: 40, noNaN: true }), { minLength: 5, maxLength: 16 });

  function ringOf(spokes: readonly number[], turned: number, middle = CENTRE): readonly LonLat[] {
    return spokes.map((metres, spoke) => destination(middle, turned + (360 / spokes.length) * spoke, metres));
  }

  test('do not change when the opening is turned', () => {
    fc.assert(
      fc.property(opening, fc.double({ min: 0, max: 360, noNaN: true }), (spokes, turned) => {
        const ratio = geodesicArea(ringOf(spokes, turned)) / geodesicArea(ringOf(spokes, 0));
        expect(ratio).toBeCloseTo(1, 6);
        const plane =
          planarArea('EPSG:2264', ringOf(spokes, turned)) / planarArea('EPSG:2264', ringOf(spokes, 0));
        expect(plane).toBeCloseTo(1, 6);
      }),
      { numRuns: 60 },
    );
  });

  test('of spokes are half the sum of r · r′ · sin of the angle between', () => {
    // Plane geometry: the polygon from azimuths and distances.
    fc.assert(
      fc.property(opening, (spokes) => {
        const between = (2 * Math.PI) / spokes.length;
        const expected = spokes.reduce(
          (sum, metres, spoke) =>
            sum + (metres * (spokes[(spoke + 1) % spokes.length] ?? 0) * Math.sin(between)) / 2,
          0,
        );
        expect(geodesicArea(ringOf(spokes, 0)) / expected).toBeCloseTo(1, 6);
      }),
      { numRuns: 60 },
    );
  });

  test('are the same on the ellipsoid and on State Plane but for its scale, in feet or metres', () => {
    // State Plane zones are laid out so that the scale is within 1 in 10,000: areas within 1 in 5,000.
    const ring = ringOf([20, 25, 18, 30, 22, 19], 10);
    const ground = geodesicArea(ring);
    for (const code of ['EPSG:2264', 'EPSG:32119', 'EPSG:6543']) {
      expect(Math.abs(planarArea(code, ring) / ground - 1), code).toBeLessThan(1 / 5000);
    }
  });

  test('do not care which way round, or whether the ring is closed', () => {
    const ring = ringOf([20, 25, 18, 30], 10);
    const [first = CENTRE] = ring;
    expect(geodesicArea([...ring].reverse())).toBeCloseTo(geodesicArea(ring), 6);
    expect(geodesicArea([...ring, first])).toBeCloseTo(geodesicArea(ring), 6);
    expect(planarArea('EPSG:2264', [...ring, first].reverse())).toBeCloseTo(planarArea('EPSG:2264', ring), 6);
  });

  test('an offset and its way back end where they began', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        (azimuth, metres) => {
          const there = destination(CENTRE, azimuth, metres);
          const way = distanceAndAzimuth(there, CENTRE);
          expect(way.metres).toBeCloseTo(metres, 6);
          expect(
            distanceAndAzimuth(destination(there, way.azimuthTrue, way.metres), CENTRE).metres,
          ).toBeLessThan(1e-6);
        },
      ),
    );
  });
});
