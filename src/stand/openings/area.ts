// The area of an opening in each way that it was measured, and the one that maps and reports print.
import { type AreaUnit, areaIn } from '../../measure/index.ts';
import {
  areaStandardError,
  crs,
  geodesicArea,
  isUnresolved,
  PlaceError,
  planarArea,
  ringProblems,
  type Unresolved,
  whyNotCrs,
} from '../../place/index.ts';
import type { Folded } from '../fold.ts';
import type { Outline } from '../outlines.ts';
import type { Group } from '../state.ts';
import type { Locator } from '../where.ts';
import { type Ground, type OpeningMethod, waysOf } from './ground.ts';

/** One area in the units that reports print. */
export type AreaFigures = Readonly<Record<Extract<AreaUnit, 'm2' | 'ac' | 'ha'>, number>>;

export type OpeningArea = Readonly<{
  method: OpeningMethod;
  /** What it rests on, in words: "walked edge, 12 corners: …" or "hull of 9 of 11 stumps: …". */
  basis: string;
  shape: Outline;
  /** The working reference system that it was computed in. */
  crs: string;
  /**
   * The area to print: by coordinates in the working grid, which anybody can compute again from the projected
   * layer. It carries the grid's scale; `geodesic` does not, and shows how much that is.
   */
  planar: AreaFigures;
  /** Standard error of the area from what the corners are off by, m². */
  standardError: number;
  /** The area on the ellipsoid, as a check. */
  geodesic: AreaFigures;
  /** How much `planar` is above `geodesic`, in percent of it. */
  differencePercent: number;
  /** What to know when reading the figure, in sentences. */
  remarks: readonly string[];
  /** The entries that it rests on. */
  entries: readonly string[];
}>;

/** The area in one way; `shape` is missing where nobody recorded where the opening lies. */
export type OpeningMeasure = Readonly<{
  method: OpeningMethod;
  basis: string;
  area: AreaFigures;
  standardError: number;
  remarks: readonly string[];
  entries: readonly string[];
  /** Why it is not on the map. */
  unplaced?: string;
}>;

/**
 * The area of a group's opening: within its walked edge if there is one, else by the next way in which it was measured,
 * else within the hull of its stumps.
 * @returns the area with how it came about, or `why` there is none: "not enough data: …" and what is missing
 */
export function openingArea(group: Group, folded: Folded, locator: Locator): OpeningArea | Unresolved {
  let first: Unresolved | undefined;
  for (const { ground } of waysOf(group, folded, locator)) {
    const area = isUnresolved(ground) ? missing(ground.why) : areaOf(ground, folded);
    if (!isUnresolved(area)) return area;
    first ??= area;
  }
  return first ?? missing('nothing was measured.');
}

/** The area in every way in which it was measured, side by side; those that gave nothing say why. */
export function openingMeasures(
  group: Group,
  folded: Folded,
  locator: Locator,
): (OpeningMeasure | (Unresolved & Readonly<{ method: OpeningMethod }>))[] {
  return waysOf(group, folded, locator).map(({ method, ground }) => {
    if (isUnresolved(ground)) return { method, ...missing(ground.why) };
    const { at, remarks, entries } = ground;
    if ('m2' in at) {
      const { m2, standardError, via, why } = at;
      return { method, basis: via, area: figures(m2), standardError, remarks, entries, unplaced: why };
    }
    const area = areaOf(ground, folded);
    if (isUnresolved(area)) return { method, ...area };
    const { basis, planar, standardError } = area;
    return { method, basis, area: planar, standardError, remarks, entries };
  });
}

function areaOf(ground: Ground, folded: Folded): OpeningArea | Unresolved {
  const { at: shape, method, remarks, entries } = ground;
  if ('m2' in shape) return missing(`${shape.why}, so the opening has no place on the map.`);
  const problems = ringProblems(shape.points);
  if (problems.length > 0) return missing(`the ${method} bounds no area. ${problems.join(' ')}`);
  const code = folded.stand.logbook?.body.crs;
  if (code === undefined) return missing('the logbook names no working CRS; give one, such as EPSG:2264.');
  if (crs(code) === undefined) return missing(`the working CRS cannot be used. ${whyNotCrs(code)}`);
  try {
    const planar = planarArea(code, shape.points);
    const geodesic = geodesicArea(shape.points);
    return {
      method,
      basis: shape.via,
      shape,
      crs: code,
      planar: figures(planar),
      standardError: shape.areaError ?? areaStandardError(shape.points, shape.errors),
      geodesic: figures(geodesic),
      differencePercent: (planar / geodesic - 1) * 100,
      remarks,
      entries,
    };
  } catch (error) {
    if (error instanceof PlaceError) return missing(error.message);
    throw error;
  }
}

/** Square metres in the units that reports print. */
export function figures(squareMetres: number): AreaFigures {
  return {
    m2: squareMetres,
    ac: areaIn(squareMetres, 'm2', 'ac'),
    ha: areaIn(squareMetres, 'm2', 'ha'),
  };
}

function missing(what: string): Unresolved {
  return { why: `not enough data: ${what}` };
}
