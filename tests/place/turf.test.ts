// Own geometry against Turf (https://turfjs.org), a general reference library on the sphere.
import * as turf from '@turf/turf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { geodesicArea, hull, type LonLat, pointInRing, ringProblems } from '../../src/place/index.ts';

/** Points of a 2 km square to about a metre, spread evenly, so that no three lie on a line by design. */
const step = fc.noBias(fc.integer({ min: 0, max: 2000 }));
const corner = fc
  .record({ east: step, north: step })
  .map(({ east, north }) => ({ lon: -81.76 + east * 1e-5, lat: 35.94 + north * 1e-5 }));
const corners = fc.array(corner, { minLength: 4, maxLength: 9 });
const runs = { numRuns: 400, seed: 20260302 };

function polygon(ring: readonly LonLat[]) {
  const positions = ring.map(({ lon, lat }) => [lon, lat]);
  return turf.polygon([[...positions, ...positions.slice(0, 1)]]);
}

describe('geometry of rings', () => {
  it('finds a ring crossing itself where Turf finds kinks', () => {
    let crossing = 0;
    fc.assert(
      fc.property(corners, (ring) => {
        const kinks = turf.kinks(polygon(ring)).features.length > 0;
        if (kinks) crossing += 1;
        expect(ringProblems(ring).some((problem) => problem.includes('cross'))).toBe(kinks);
      }),
      runs,
    );
    expect(crossing).toBeGreaterThan(50);
  });

  it('lays the same hull round points as Turf', () => {
    fc.assert(
      fc.property(corners, (points) => {
        const theirs = turf.convex(
          turf.featureCollection(points.map(({ lon, lat }) => turf.point([lon, lat]))),
        );
        const ours = polygon(hull(points));
        if (theirs === null) return;
        // Both on the same sphere, so that only the choice of corners is compared.
        expect(turf.area(ours)).toBeCloseTo(turf.area(theirs), 3);
      }),
      runs,
    );
  });

  it('says of a point in a hull what Turf says', () => {
    fc.assert(
      fc.property(corners, corner, (points, point) => {
        const ring = hull(points);
        const theirs = turf.booleanPointInPolygon(turf.point([point.lon, point.lat]), polygon(ring));
        expect(pointInRing(point, ring)).toBe(theirs);
      }),
      runs,
    );
  });

  it('gives areas a quarter of a percent above Turf, which counts on a sphere', () => {
    const ring = [
      { lon: -81.76, lat: 35.94 },
      { lon: -81.74, lat: 35.94 },
      { lon: -81.74, lat: 35.96 },
      { lon: -81.76, lat: 35.96 },
    ];
    const ratio = geodesicArea(ring) / turf.area(polygon(ring));
    expect(ratio).toBeGreaterThan(0.995);
    expect(ratio).toBeLessThan(1.005);
    expect(ratio).not.toBe(1);
  });
});
