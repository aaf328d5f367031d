/** A plane in metres round a place: small geometry where the curve of the earth is far below a tape's error. */
import { destination, distanceAndAzimuth } from './geodesic.ts';
import type { LonLat } from './position.ts';

/** Metres east (x) and north (y) of the plane's origin. */
export type Point = [x: number, y: number];

/** The plane in which every point has its true distance and direction from `origin` (azimuthal equidistant), metres. */
export function planeAt(origin: LonLat): (at: LonLat) => Point {
  return (at) => {
    const { metres, azimuthTrue } = distanceAndAzimuth(origin, at);
    const direction = (azimuthTrue * Math.PI) / 180;
    return [metres * Math.sin(direction), metres * Math.cos(direction)];
  };
}

/** From that plane back to the earth. */
export function fromPlane(origin: LonLat, [x, y]: Point): LonLat {
  return destination(origin, (Math.atan2(x, y) * 180) / Math.PI, Math.hypot(x, y));
}
