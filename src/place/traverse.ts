/**
 * A traverse: legs by azimuth and level distance, how well they close, and the area they enclose. Plane geometry, as
 * surveyors reduce one: latitudes (north positive) and departures (east positive). Units are those of the distances.
 *
 * Linear misclosure is √(Σlatitude² + Σdeparture²), its ratio the perimeter divided by it; the compass rule (Bowditch)
 * shares the misclosure out in proportion to the legs. J. Mahun, Traverse computations (jerrymahun.com).
 */

/** Azimuth in degrees from one north for all legs; distance level. */
export type Leg = { readonly azimuth: number; readonly distance: number };

export type TraverseLeg = Leg & { readonly latitude: number; readonly departure: number };
export type Corner = { readonly east: number; readonly north: number };

export type Traverse = {
  readonly legs: readonly TraverseLeg[];
  readonly perimeter: number;
  readonly misclosure: {
    readonly latitude: number;
    readonly departure: number;
    readonly distance: number;
    /** From the start to where the legs end, degrees; undefined when they end at the start. */
    readonly azimuth: number | undefined;
    /** Perimeter per unit of misclosure: 701 for "1 in 701". Infinite when it closes exactly. */
    readonly ratio: number;
  };
  /** Where each leg begins, the start at 0, 0; as measured, the last leg not drawn back to the start. */
  readonly corners: readonly Corner[];
  /** Area by coordinates; what was measured is closed by a straight line to the start. */
  readonly area: number;
};

/** Distances that end this near to the start close exactly, as a share of the perimeter: below any rounding of angles. */
const EXACT = 1e-12;

/** Reduces the legs as they were measured; nothing is adjusted. */
export function traverse(legs: readonly Leg[]): Traverse {
  return closed(
    legs.map((leg) => {
      const angle = (leg.azimuth * Math.PI) / 180;
      return { ...leg, latitude: leg.distance * Math.cos(angle), departure: leg.distance * Math.sin(angle) };
    }),
  );
}

/**
 * Shares the misclosure out over the legs by their lengths (compass rule, Bowditch), so that the end falls on the
 * start. It hides a blunder as well as chance errors: look at the ratio first.
 */
export function adjusted({ legs, perimeter, misclosure }: Traverse): Traverse {
  if (perimeter === 0) return closed(legs);
  return closed(
    legs.map((leg) => {
      const share = leg.distance / perimeter;
      const latitude = leg.latitude - misclosure.latitude * share;
      const departure = leg.departure - misclosure.departure * share;
      const azimuth = ((Math.atan2(departure, latitude) * 180) / Math.PI + 360) % 360;
      return { azimuth, distance: Math.hypot(latitude, departure), latitude, departure };
    }),
  );
}

function closed(legs: readonly TraverseLeg[]): Traverse {
  const corners: Corner[] = [];
  let [east, north, perimeter] = [0, 0, 0];
  for (const leg of legs) {
    corners.push({ east, north });
    east += leg.departure;
    north += leg.latitude;
    perimeter += leg.distance;
  }
  const off = Math.hypot(east, north);
  const distance = off <= EXACT * perimeter ? 0 : off;
  const end = { east, north };
  return {
    legs,
    perimeter,
    misclosure: {
      latitude: north,
      departure: east,
      distance,
      azimuth: distance === 0 ? undefined : ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360,
      ratio: distance === 0 ? Number.POSITIVE_INFINITY : perimeter / distance,
    },
    corners,
    area: areaOf(distance === 0 ? corners : [...corners, end]),
  };
}

/** The surveyor's formula. */
function areaOf(corners: readonly Corner[]): number {
  let twice = 0;
  for (const [index, corner] of corners.entries()) {
    const next = corners[(index + 1) % corners.length] ?? corner;
    twice += corner.east * next.north - next.east * corner.north;
  }
  return Math.abs(twice) / 2;
}
