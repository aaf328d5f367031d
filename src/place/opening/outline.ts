/** The outline of an opening from what was measured in it: spokes from its centre, two diameters, crowns at its edge. */
import { destination, distanceAndAzimuth } from '../geodesic.ts';
import { fromPlane, planeAt } from '../plane.ts';
import type { LonLat } from '../position.ts';

/** From the centre to the edge: a true azimuth in degrees, a horizontal distance in metres. */
export type Spoke = Readonly<{ azimuthTrue: number; metres: number }>;

/** The ends of the spokes, clockwise from north, whatever order they were measured in. */
export function spokeRing(centre: LonLat, spokes: readonly Spoke[]): LonLat[] {
  return clockwise(spokes).map(({ azimuthTrue, metres }) => destination(centre, azimuthTrue, metres));
}

/**
 * Area within the ends of the spokes in m²: the sum of the triangles between neighbours, ½ r₁ r₂ sin(difference of
 * azimuth). Where neighbours are more than 180° apart the centre lies outside and their triangle is taken off. Fewer
 * than three spokes bound nothing and give 0. It rests on differences of azimuth alone, so any one north will do.
 */
export function spokeArea(spokes: readonly Spoke[]): number {
  if (spokes.length < 3) return 0;
  const ordered = clockwise(spokes);
  const twice = ordered.reduce((sum, spoke, position) => {
    const next = ordered[(position + 1) % ordered.length] ?? spoke;
    return sum + spoke.metres * next.metres * sine(next.azimuthTrue - spoke.azimuthTrue);
  }, 0);
  return Math.abs(twice) / 2;
}

/**
 * Area of an ellipse in m² from its longest axis and the one at right angles to it, metres. (Runkle's way of measuring
 * canopy gaps, from memory; the same gaps measured closely were 22 % smaller in Battles et al. 1996, For. Sci. 42:131-138.)
 */
export function ellipseArea(length: number, width: number): number {
  return (Math.PI / 4) * length * width;
}

/** Corners that an ellipse is drawn with. */
const CORNERS = 72;

/** An ellipse as a ring. Its corners lie just outside the curve, so that the ring has the ellipse's area. */
export function ellipseRing(
  centre: LonLat,
  axes: Readonly<{ length: number; width: number; azimuthTrue: number }>,
): LonLat[] {
  const step = (2 * Math.PI) / CORNERS;
  const out = Math.sqrt(step / Math.sin(step));
  return Array.from({ length: CORNERS }, (_, corner) => {
    const along = (out * axes.length * Math.cos(corner * step)) / 2;
    const across = (out * axes.width * Math.sin(corner * step)) / 2;
    const turned = axes.azimuthTrue + (Math.atan2(across, along) * 180) / Math.PI;
    return destination(centre, turned, Math.hypot(along, across));
  });
}

/** A tree at the edge, and how far its crown reaches into the opening, metres. */
export type EdgeTree = Readonly<{ at: LonLat; crownRadius: number }>;

/**
 * The edge of the crowns: from each edge tree by its crown radius toward the middle of the edge trees, in the order
 * given. A crown that reaches past the middle ends there.
 */
export function crownEdge(trees: readonly EdgeTree[]): LonLat[] {
  const middle = middleOf(trees.map(({ at }) => at));
  if (middle === undefined) return [];
  return trees.map(({ at, crownRadius }) => {
    const { metres, azimuthTrue } = distanceAndAzimuth(at, middle);
    return destination(at, azimuthTrue, Math.min(crownRadius, metres));
  });
}

/** The mean of several places; undefined for none. */
export function middleOf(points: readonly LonLat[]): LonLat | undefined {
  const [origin] = points;
  if (origin === undefined) return undefined;
  const flat = points.map(planeAt(origin));
  const x = flat.reduce((sum, point) => sum + point[0], 0) / flat.length;
  const y = flat.reduce((sum, point) => sum + point[1], 0) / flat.length;
  return fromPlane(origin, [x, y]);
}

function clockwise(spokes: readonly Spoke[]): Spoke[] {
  return [...spokes].sort((one, other) => turned(one.azimuthTrue) - turned(other.azimuthTrue));
}

function turned(azimuth: number): number {
  return ((azimuth % 360) + 360) % 360;
}

function sine(degrees: number): number {
  return Math.sin((degrees * Math.PI) / 180);
}
