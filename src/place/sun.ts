/**
 * Where the sun stands, and for how long it reaches a point in an opening over the trees round it.
 *
 * The position is that of the Astronomical Almanac's low-precision formulas (Michalsky 1988, Solar Energy 40:227-235, from
 * memory): 0.01° between 1950 and 2050. Hours of sun are an estimate of open sky: edge trees are taken as an opaque wall
 * of their height, the ground as level, and no cloud is in it.
 */
import { planeAt } from './plane.ts';
import type { LonLat } from './position.ts';

export type SunPosition = Readonly<{
  /** Degrees above the level horizon, without refraction; negative at night. */
  elevation: number;
  /** Degrees from true north, clockwise. */
  azimuth: number;
}>;

const DAY = 86_400_000;
/** Noon of 1 January 2000 UT, from which the formulas count days. */
const EPOCH = Date.UTC(2000, 0, 1, 12);

/** Where the sun stands. @param instant milliseconds since 1970, UT */
export function sunPosition(instant: number, { lon, lat }: LonLat): SunPosition {
  const days = (instant - EPOCH) / DAY;
  const meanLongitude = 280.46 + 0.9856474 * days;
  const anomaly = 357.528 + 0.9856003 * days;
  const longitude = meanLongitude + 1.915 * sin(anomaly) + 0.02 * sin(2 * anomaly);
  const tilt = 23.439 - 0.0000004 * days;
  const rightAscension = degrees(Math.atan2(cos(tilt) * sin(longitude), cos(longitude)));
  const declination = degrees(Math.asin(sin(tilt) * sin(longitude)));
  // Greenwich mean sidereal time; `days` has the hours of the day in it already, and began at noon.
  const hours = (((days * 24 + 12) % 24) + 24) % 24;
  const siderealHours = 6.697375 + 0.0657098242 * days + hours;
  const hourAngle = 15 * siderealHours + lon - rightAscension;
  const elevation = degrees(
    Math.asin(sin(declination) * sin(lat) + cos(declination) * cos(lat) * cos(hourAngle)),
  );
  const azimuth = degrees(
    Math.atan2(-sin(hourAngle), Math.tan(radians(declination)) * cos(lat) - sin(lat) * cos(hourAngle)),
  );
  return { elevation, azimuth: (azimuth + 360) % 360 };
}

/** Trees round a point: the edge they stand along, and their height above the point, metres. */
export type Surround = Readonly<{ ring: readonly LonLat[]; height: number }>;

/** How high the trees stand over the level horizon in a direction, degrees; 90 for a point that is not in the opening. */
export function horizonOf(at: LonLat, { ring, height }: Surround): (azimuth: number) => number {
  const corners = ring.map(planeAt(at));
  return (azimuth) => {
    const [east, north] = [sin(azimuth), cos(azimuth)];
    let nearest = Number.POSITIVE_INFINITY;
    let crossings = 0;
    for (const [position, from] of corners.entries()) {
      const to = corners[(position + 1) % corners.length] ?? from;
      // Across the direction: a side is met where its ends lie on either side of the ray.
      const [left, right] = [from[0] * north - from[1] * east, to[0] * north - to[1] * east];
      if (left > 0 === right > 0) continue;
      const share = left / (left - right);
      const away =
        (from[0] + share * (to[0] - from[0])) * east + (from[1] + share * (to[1] - from[1])) * north;
      if (away < 0) continue;
      crossings += 1;
      nearest = Math.min(nearest, away);
    }
    return crossings % 2 === 1 ? degrees(Math.atan2(height, nearest)) : 90;
  };
}

/** Minutes between two looks at the sky. */
const STEP = 2;

/**
 * Hours of direct sun in one day, from midnight to midnight by the sun.
 * @param day any instant of it, milliseconds since 1970
 * @param horizon degrees in each direction; a level horizon if left out
 */
export function hoursOfSun(day: number, at: LonLat, horizon: (azimuth: number) => number = () => 0): number {
  const midnight = Math.floor(day / DAY) * DAY - (at.lon / 360) * DAY;
  let minutes = 0;
  for (let minute = STEP / 2; minute < 24 * 60; minute += STEP) {
    const { elevation, azimuth } = sunPosition(midnight + minute * 60_000, at);
    if (elevation > 0 && elevation > horizon(azimuth)) minutes += STEP;
  }
  return minutes / 60;
}

function radians(angle: number): number {
  return (angle * Math.PI) / 180;
}

function degrees(angle: number): number {
  return (angle * 180) / Math.PI;
}

function sin(angle: number): number {
  return Math.sin(radians(angle));
}

function cos(angle: number): number {
  return Math.cos(radians(angle));
}
