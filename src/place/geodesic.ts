/**
 * Distances, directions and areas on the WGS 84 ellipsoid, by GeographicLib (C. F. F. Karney, "Algorithms for
 * geodesics", J. Geodesy 87, 2013), so that no projection's scale factor enters a taped distance.
 */
import geodesicLibrary from 'geographiclib-geodesic';
import { PlaceError } from './error.ts';
import type { LonLat } from './position.ts';

const ellipsoid = geodesicLibrary.Geodesic.WGS84;

/** The shortest way over the ellipsoid: metres, and the true azimuth at `from` in degrees, 0 to below 360. */
export function distanceAndAzimuth(
  from: LonLat,
  to: LonLat,
): { readonly metres: number; readonly azimuthTrue: number } {
  const { s12: metres = Number.NaN, azi1 = Number.NaN } = ellipsoid.Inverse(
    from.lat,
    from.lon,
    to.lat,
    to.lon,
  );
  return { metres, azimuthTrue: wrapped(azi1) };
}

/**
 * Where one arrives going `metres` along the ellipsoid from `at`, starting at `azimuthTrue` degrees.
 * @throws PlaceError when an argument is not finite
 */
export function destination(at: LonLat, azimuthTrue: number, metres: number): LonLat {
  const { lat2 = Number.NaN, lon2 = Number.NaN } = ellipsoid.Direct(at.lat, at.lon, azimuthTrue, metres);
  if (!Number.isFinite(lat2) || !Number.isFinite(lon2)) {
    throw new PlaceError(
      'offset',
      `${metres} m at ${azimuthTrue}° from ${at.lat}, ${at.lon}`,
      `An offset of ${metres} m at ${azimuthTrue}° from ${at.lat}, ${at.lon} leads nowhere.`,
      'Give a latitude from -90 to 90 and finite numbers for the rest.',
    );
  }
  return { lon: lon2, lat: lat2 };
}

/**
 * Area of a ring on the ellipsoid in square metres, never negative. The ring may be given closed or open, and either
 * way round. Fewer than three points give 0. A ring that crosses itself has no meaningful area: see `ringProblems`.
 */
export function geodesicArea(ring: readonly LonLat[]): number {
  const polygon = ellipsoid.Polygon(false);
  for (const { lat, lon } of ring) polygon.AddPoint(lat, lon);
  const { area = 0 } = polygon.Compute(false, true);
  return Math.abs(area);
}

/** An azimuth brought to 0 to below 360 degrees. */
export function wrapped(azimuth: number): number {
  const turned = ((azimuth % 360) + 360) % 360;
  return turned === 360 ? 0 : turned;
}
