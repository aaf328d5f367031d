/**
 * In, out or doubtful: answers near a line, with what is not known of the position and of the line itself.
 *
 * Two standard errors cover about 95 % of what can be across one line if errors are normal; nearer than that nobody
 * should say on which side something stands. A position error is taken as round: the part across the line is held to
 * be all of it, which errs towards doubt.
 */
import { distanceAndAzimuth } from './geodesic.ts';
import type { LonLat } from './position.ts';
import { distanceToEdge, pointInRing } from './ring.ts';

/** How many standard errors something must lie from a line to be said to lie on one side of it. */
export const STANDARD_ERRORS_TO_BE_SURE = 2;

/** On which side, how far from the line, and how far it would have to be; metres. */
export type InRing = {
  readonly side: 'in' | 'out' | 'doubtful';
  /** Distance to the ring's line, positive inside it and negative outside. */
  readonly inside: number;
  readonly margin: number;
};

/** On which side of a line, as seen along it from its first to its second point; metres. */
export type SideOfLine = {
  readonly side: 'left' | 'right' | 'doubtful';
  /** Distance to the line as far as it goes on beyond its ends, positive to the right. */
  readonly right: number;
  readonly margin: number;
};

/**
 * Whether a place is inside a ring.
 *
 * @param standardError of the place, metres; undefined when it is not known, and then everything is doubtful
 * @param ringError standard error of the ring's line, metres
 */
export function inRing(
  at: LonLat,
  standardError: number | undefined,
  ring: readonly LonLat[],
  ringError = 0,
): InRing {
  const margin = marginOf(standardError, ringError);
  const distance = distanceToEdge(at, ring);
  const within = pointInRing(at, ring);
  const side = distance > margin ? (within ? 'in' : 'out') : 'doubtful';
  return { side, inside: within ? distance : -distance, margin };
}

/**
 * On which side of a straight line a place is.
 *
 * @param standardError of the place, metres; undefined when it is not known, and then everything is doubtful
 * @param line two points; where they are the same there is no side, and the answer is doubtful
 * @param lineError standard error of the line, metres
 */
export function sideOfLine(
  at: LonLat,
  standardError: number | undefined,
  line: readonly [from: LonLat, to: LonLat],
  lineError = 0,
): SideOfLine {
  const [from, to] = line;
  const margin = marginOf(standardError, lineError);
  const along = distanceAndAzimuth(from, to);
  const toPlace = distanceAndAzimuth(from, at);
  const turn = ((toPlace.azimuthTrue - along.azimuthTrue) * Math.PI) / 180;
  const right = along.metres === 0 ? 0 : toPlace.metres * Math.sin(turn);
  const side = Math.abs(right) > margin ? (right > 0 ? 'right' : 'left') : 'doubtful';
  return { side, right, margin };
}

function marginOf(standardError: number | undefined, lineError: number): number {
  return standardError === undefined
    ? Number.POSITIVE_INFINITY
    : STANDARD_ERRORS_TO_BE_SURE * Math.hypot(standardError, lineError);
}
