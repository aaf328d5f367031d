// Whether a falling stem reaches a line or the edge of an area: for every direction there is a length from which on it does.
import { gaussLegendre } from './crown.ts';
import { azimuth, type Body, DEGREES, type Fall, lengthChance, turn, WIDEST } from './fall.ts';
import type { Point } from './inputs.ts';

/** Directions to integrate over, with the width that each stands for and the chance of being long enough there. */
export type LineReach = readonly Readonly<{ direction: number; width: number; longEnough: number }>[];

const NODES = /* @__PURE__ */ gaussLegendre(4);
/** Degrees. No direction error is under 1°, so the density is smooth on such a part. */
const PART = 2;

/**
 * How a stem reaches a line, whatever is aimed at. The falling stem counts as a strip as wide as its crown.
 *
 * @param points of the line as seen from the stump, metres east and north
 * @param clearance how near is too near, metres
 */
export function lineReach(body: Body, points: readonly Point[], clearance: number): LineReach {
  const half = Math.max(body.halfWidth, body.crownRadius) + clearance;
  const edges = new Set(Array.from({ length: 360 / PART }, (_, index) => index * PART));
  for (const { x, y } of points) {
    const bearing = Math.atan2(x, y) * DEGREES;
    const off = Math.asin(Math.min(1, half / Math.hypot(x, y))) * DEGREES;
    for (const edge of [bearing - off, bearing, bearing + off]) edges.add(azimuth(edge));
  }
  const sorted = [...edges].sort((a, b) => a - b);
  return sorted.flatMap((from, index) => {
    const width = (sorted[index + 1] ?? 360) - from;
    return NODES.flatMap(({ at, weight }) => {
      const direction = from + at * width;
      const longEnough = lengthChance(body, reachOf(points, direction, half) - clearance);
      return longEnough < 1e-12 ? [] : [{ direction, width: weight * width, longEnough }];
    });
  });
}

/** The chance of reaching the line for one aim. */
export function reachChance({ aim, directionError }: Fall, reach: LineReach): number {
  let sum = 0;
  for (const { direction, width, longEnough } of reach) {
    const off = turn(direction - aim) / directionError;
    if (Math.abs(off) < WIDEST) sum += width * longEnough * Math.exp((-off * off) / 2);
  }
  return Math.min(1, sum / (directionError * Math.sqrt(2 * Math.PI)));
}

/** How far out a strip of this half width first meets the line; infinite where it never does. */
export function reachOf(points: readonly Point[], direction: number, half: number): number {
  const [sine, cosine] = [Math.sin(direction / DEGREES), Math.cos(direction / DEGREES)];
  const turned = points.map(({ x, y }) => ({ along: x * sine + y * cosine, aside: x * cosine - y * sine }));
  let nearest = Number.POSITIVE_INFINITY;
  turned.slice(1).forEach((end, index) => {
    const start = turned[index] ?? end;
    let [from, to] = [0, 1];
    // What of this piece lies within the strip, ahead of the stump: clipped by three lines, one after the other.
    for (const [a, b] of [
      [half - start.aside, half - end.aside],
      [half + start.aside, half + end.aside],
      [start.along, end.along],
    ] as const) {
      if (a < 0 && b < 0) return;
      if (a < 0) from = Math.max(from, a / (a - b));
      else if (b < 0) to = Math.min(to, a / (a - b));
    }
    if (from > to) return;
    const at = (part: number) => start.along + part * (end.along - start.along);
    nearest = Math.min(nearest, at(from), at(to));
  });
  return nearest;
}
