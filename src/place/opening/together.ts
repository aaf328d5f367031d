/**
 * Rings taken together: the ground that several of them cover, and the part of a ring that lies within another. On the
 * grid of a projected reference system, as areas by coordinates are. Clipping is polyclip-ts (Martinez-Rueda-Feito).
 */
import { polygonArea } from 'd3-polygon';
import { difference, intersection, union } from 'polyclip-ts';
import { lengthIn } from '../../measure/index.ts';
import { crs, whyNotCrs } from '../crs.ts';
import { PlaceError } from '../error.ts';
import type { LonLat } from '../position.ts';
import { project } from '../projection.ts';

type Ring = readonly LonLat[];
type Flat = [number, number][][];

/**
 * Area in m² of the ground that the rings cover together: what two of them share counts once.
 * @param within count only what lies in this ring
 * @throws PlaceError for an unknown reference system, or a ring beyond where it can be used
 */
export function areaTogether(code: string, rings: readonly Ring[], within?: Ring): number {
  const { flat, squareMetres } = gridOf(code, rings);
  const [first, ...others] = rings.map(flat);
  if (first === undefined) return 0;
  const covered = union(first, ...others);
  return squareMetres(within === undefined ? covered : intersection(covered, flat(within)));
}

/** Area in m² of a ring without what the other rings cover of it. */
export function areaBeyond(code: string, ring: Ring, others: readonly Ring[]): number {
  const { flat, squareMetres } = gridOf(code, [ring]);
  return squareMetres(difference(flat(ring), ...others.map(flat)));
}

/** The grid of a reference system, counted from the first corner: small numbers keep their last digits. */
function gridOf(code: string, rings: readonly Ring[]) {
  const system = crs(code);
  if (system === undefined)
    throw new PlaceError('crs', code, whyNotCrs(code), 'Give a code such as EPSG:2264.');
  const first = rings[0]?.[0];
  const origin = first === undefined ? { x: 0, y: 0 } : project(code, first);
  const flat = (ring: Ring): Flat => [
    ring.map((at) => {
      const { x, y } = project(code, at);
      return [x - origin.x, y - origin.y];
    }),
  ];
  const squareMetres = (polygons: Flat[]) =>
    polygons.reduce((sum, [outer = [], ...holes]) => {
      const open = holes.reduce((taken, hole) => taken + Math.abs(polygonArea(hole)), 0);
      return sum + Math.abs(polygonArea(outer)) - open;
    }, 0) *
    lengthIn(1, system.unit, 'm') ** 2;
  return { flat, squareMetres };
}
