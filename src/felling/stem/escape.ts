// The two ways out from a stump, back and to the side, and what stands in them.
import { seen } from '../model/around.ts';
import { type Assumed, USUAL } from '../model/assumptions.ts';
import { azimuth, DEGREES, turn } from '../model/fall.ts';
import type { GroundSlope, Point } from '../model/inputs.ts';

/** One way out. Metres, degrees; the side as seen by somebody who looks along the aim. */
export type EscapeRoute = Readonly<{
  side: 'left' | 'right';
  azimuth: number;
  /** 25 ft back and to the side unless set otherwise: Oregon OAR 437-007-0810. */
  length: number;
  blockedBy: readonly Readonly<{ label: string; distance: number }>[];
  /** It climbs more than 20 %, where that is known. */
  steep: boolean;
}>;

export type EscapeRoutes = Readonly<{
  routes: readonly [EscapeRoute, EscapeRoute];
  /** Said where neither is clear of what was entered. What nobody entered is not seen: brush, stones, slash, wires. */
  noneClear?: string;
}>;

/** Something that stands or lies in the way, with the radius that has to be walked round, metres. */
export type InTheWay = Point & Readonly<{ label: string; radius: number }>;

const STEEP = 20;

/** The two ways out for one aim, each about 45° to a side of straight back. */
export function escapeRoutes(
  stump: Point,
  aim: number,
  around: readonly InTheWay[],
  slope?: GroundSlope,
  assumed: Assumed = USUAL,
): EscapeRoutes {
  const route = (side: 'left' | 'right'): EscapeRoute => {
    // Looking back, the left hand is on the other side: the way to the left of the aim is clockwise from straight back.
    const direction = azimuth(aim + 180 + (side === 'left' ? 1 : -1) * assumed.escapeAngle);
    const blockedBy = around
      .map(({ label, radius, ...at }) => ({ label, radius, ...seen(stump, at) }))
      .filter(({ radius, distance, bearing }) => {
        const off = turn(bearing - direction) / DEGREES;
        // What lies behind somebody who goes that way, such as a sapling at the other side of the stump, is not in it.
        if (Math.cos(off) <= 0) return false;
        const along = Math.min(assumed.escapeLength, distance * Math.cos(off));
        const gap = Math.sqrt(Math.max(0, distance ** 2 + along ** 2 - 2 * distance * along * Math.cos(off)));
        return gap < radius + assumed.escapeHalfWidth;
      })
      .sort((a, b) => a.distance - b.distance)
      // Something long is there in many pieces, and is named once, where it is nearest.
      .filter(({ label }, at, all) => all.findIndex((one) => one.label === label) === at)
      .map(({ label, distance }) => ({ label, distance }));
    const climbs =
      slope === undefined ? 0 : -slope.percent * Math.cos(turn(direction - slope.aspect) / DEGREES);
    return { side, azimuth: direction, length: assumed.escapeLength, blockedBy, steep: climbs > STEEP };
  };
  const routes = [route('left'), route('right')] as const;
  return routes.some(({ blockedBy, steep }) => blockedBy.length === 0 && !steep)
    ? { routes }
    : {
        routes,
        noneClear:
          'Neither way out is clear. Clear one first, or aim elsewhere; without a way out this stem is not felled.',
      };
}
