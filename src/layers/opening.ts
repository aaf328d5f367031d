// The ground of an opening and its area: what was walked, or else the hull of the stumps, named as such.
import { type AreaUnit, areaIn } from '../measure/index.ts';
import {
  crs,
  geodesicArea,
  hull,
  isUnresolved,
  PlaceError,
  planarArea,
  type Resolved,
  ringProblems,
  type Unresolved,
  whyNotCrs,
} from '../place/index.ts';
import { type Folded, type Group, instantOf, type Locator, type Stem } from '../stand/index.ts';
import type { Shape } from './layer.ts';
import { ringShape, worstError } from './view.ts';

export type OpeningMethod = 'walked edge' | 'hull of stumps';

/** One area in the units that reports print. */
export type AreaFigures = Readonly<Record<Extract<AreaUnit, 'm2' | 'ac' | 'ha'>, number>>;

export type OpeningArea = Readonly<{
  method: OpeningMethod;
  /** What it rests on, in words: "walked edge, 12 corners: …" or "hull of 9 of 11 stumps: …". */
  basis: string;
  shape: Shape;
  /** The working reference system that it was computed in. */
  crs: string;
  /**
   * The area to print: by coordinates in the working grid, which anybody can compute again from the projected
   * layer. It carries the grid's scale; `geodesic` does not, and shows how much that is.
   */
  planar: AreaFigures;
  /** The area on the ellipsoid, as a check. */
  geodesic: AreaFigures;
  /** How much `planar` is above `geodesic`, in percent of it. */
  differencePercent: number;
  /** What to know when reading the figure, in sentences. */
  remarks: readonly string[];
  /** The entries that it rests on. */
  entries: readonly string[];
}>;

/** The ground of an opening, before its area is asked for. */
type Ground = Pick<OpeningArea, 'method' | 'shape' | 'remarks' | 'entries'>;

/** Too small an extent for a hull of stumps to say anything: fewer than this many stumps bound no area. */
const FEWEST_STUMPS = 3;

/**
 * The area of a group's opening: within its walked edge if there is one, else within the hull of its stumps.
 * @returns the area with how it came about, or `why` there is none: "not enough data: …" and what is missing
 */
export function openingArea(group: Group, folded: Folded, locator: Locator): OpeningArea | Unresolved {
  const ground = groundOf(group, folded, locator);
  if (isUnresolved(ground)) return missing(ground.why);
  const problems = ringProblems(ground.shape.points);
  if (problems.length > 0) return missing(`the ${ground.method} bounds no area. ${problems.join(' ')}`);
  const code = folded.stand.logbook?.body.crs;
  if (code === undefined) return missing('the logbook names no working CRS; give one, such as EPSG:2264.');
  if (crs(code) === undefined) return missing(`the working CRS cannot be used. ${whyNotCrs(code)}`);
  try {
    const planar = planarArea(code, ground.shape.points);
    const geodesic = geodesicArea(ground.shape.points);
    return {
      ...ground,
      basis: ground.shape.via,
      crs: code,
      planar: figures(planar),
      geodesic: figures(geodesic),
      differencePercent: (planar / geodesic - 1) * 100,
    };
  } catch (error) {
    if (error instanceof PlaceError) return missing(error.message);
    throw error;
  }
}

function groundOf(group: Group, folded: Folded, locator: Locator): Ground | Unresolved {
  const walked = group.closings.findLast(({ body }) => body.edge !== undefined);
  const stumps = [...folded.stand.stems.values()].filter(
    (stem) => stem.group === group.id && stem.felling !== undefined,
  );
  if (walked?.body.edge === undefined) return hullOf(stumps, locator);
  const shape = ringShape('walked edge', walked.body.edge, walked.at.at, locator);
  if (isUnresolved(shape)) return shape;
  const after = stumps.filter(({ felling }) => felling && instantOf(felling.at) > instantOf(walked.at));
  const remarks =
    after.length === 0
      ? []
      : [`The edge was walked before ${stems(after.length)} of the group fell; walk it again.`];
  return { method: 'walked edge', shape, remarks, entries: [walked.entry] };
}

function hullOf(stumps: readonly Stem[], locator: Locator): Ground | Unresolved {
  const answers = stumps.map((stem) => locator.stem(stem.id));
  const placed = answers.filter((answer): answer is Resolved => !isUnresolved(answer));
  if (placed.length < FEWEST_STUMPS) {
    return {
      why: `no edge was walked, and a hull needs at least ${FEWEST_STUMPS} stumps with positions; ${placed.length} of ${stumps.length} have one. Walk the edge, or locate the stumps.`,
    };
  }
  const corners = hull(placed.map(({ at }) => at));
  const count = placed.length === stumps.length ? `${placed.length}` : `${placed.length} of ${stumps.length}`;
  return {
    method: 'hull of stumps',
    shape: { points: corners, via: `hull of ${count} stumps`, ...worstError(placed) },
    remarks: [
      'The hull joins the outermost stumps: crowns reached further, so the hole in the canopy is larger, and standing trees between stumps are inside.',
      ...(placed.length < stumps.length
        ? [`${stems(stumps.length - placed.length)} of the group have no position and are not in the hull.`]
        : []),
    ],
    entries: stumps.flatMap(({ felling, position }) =>
      position === undefined || felling === undefined ? [] : [...new Set([position.entry, felling.entry])],
    ),
  };
}

function figures(squareMetres: number): AreaFigures {
  return {
    m2: squareMetres,
    ac: areaIn(squareMetres, 'm2', 'ac'),
    ha: areaIn(squareMetres, 'm2', 'ha'),
  };
}

function missing(what: string): Unresolved {
  return { why: `not enough data: ${what}` };
}

function stems(count: number): string {
  return count === 1 ? '1 stem' : `${count} stems`;
}
