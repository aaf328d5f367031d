/**
 * Sample plots: of a fixed radius, and by angle gauge; what a tree on one of them stands for, and whether it belongs.
 *
 * Everything here follows from circles and has no coefficients. A tree is in when its centre at breast height is no
 * farther, level, than the limit: for a fixed plot the radius, for a gauge of factor F the distance at which the stem
 * fills the gauge's angle. A tree then stands for 1 / (area of the circle of that limit). For F in ft²/ac the limit is
 * √(43560 / (576 F)) = 8.696 / √F feet for an inch of DBH, for F in m²/ha 0.5 / √F metres for a centimetre.
 * Source of the method: Bitterlich 1948, Grosenbaugh 1952; of the formulas: geometry.
 */
import { basalArea } from '../basal-area.ts';
import { type NotEnough, notEnough } from '../figure.ts';
import { type BasalAreaPerArea, perAreaIn } from '../per-area.ts';
import { horizontalDistance, type Slope, slopeCosine } from '../slope.ts';
import type { Diameter } from '../stems/tally.ts';
import { areaIn, type LengthUnit, lengthIn } from '../units.ts';

/** How a plot takes its trees. */
export type PlotMethod =
  | Readonly<{ is: 'fixed-radius'; radius: number; unit: LengthUnit }>
  | Readonly<{ is: 'angle-gauge'; factor: number; unit: BasalAreaPerArea }>;

/** A plot's method and, where distances and angles were not brought to the level in the woods, the slope it lies on. */
export type PlotLayout = Readonly<{
  method: PlotMethod;
  /** Given only when the plot was laid out along the slope: a circle there covers less ground seen from above. */
  alongSlope?: Slope;
}>;

/**
 * The farthest level distance from plot centre to the tree's centre at which it is in, metres.
 *
 * @param dbh needed for an angle gauge only
 * @throws RangeError for a radius, factor or DBH that is not above 0
 */
export function limitingDistance(method: PlotMethod, dbh: Diameter | undefined): number | NotEnough {
  if (method.is === 'fixed-radius') return lengthIn(above0('radius', method.radius), method.unit, 'm');
  if (dbh === undefined)
    return notEnough('the limiting distance of an angle gauge needs the DBH of the tree.');
  const factor = perAreaIn(above0('factor', method.factor), method.unit, 'm2/ha');
  return lengthIn(above0('dbh', dbh.value), dbh.unit, 'cm') / (2 * Math.sqrt(factor));
}

/**
 * Limiting distance for one unit of DBH: feet for an inch with a factor in ft²/ac, metres for a centimetre with m²/ha.
 *
 * @throws RangeError for a factor that is not above 0
 */
export function plotRadiusFactor(factor: number, unit: BasalAreaPerArea): number {
  above0('factor', factor);
  return unit === 'ft2/ac' ? Math.sqrt(43_560 / (576 * factor)) : 0.5 / Math.sqrt(factor);
}

/** A distance from plot centre that was taped to see whether a tree is in. */
export type TapedDistance = Readonly<{
  value: number;
  unit: LengthUnit;
  /** Whether the tape was held to the tree's face, as is handy, or to its centre. */
  to: 'center' | 'face';
  /** Given when it was taped along the ground. */
  slope?: Slope;
}>;

export type BorderlineCheck = Readonly<{
  in: boolean;
  /** Level distance to the tree's centre, and the limit, metres; unrounded. */
  distance: number;
  limit: number;
  /** limit − distance: from 0 on the tree is in. */
  margin: number;
}>;

/**
 * Whether a tree at the edge is in: the level distance to its centre is held against the limit, unrounded; at the limit
 * it is in. The half DBH between face and centre is added where the tape was held to the face.
 *
 * @throws RangeError for a negative distance, and as `limitingDistance`
 */
export function borderlineCheck(
  method: PlotMethod,
  dbh: Diameter | undefined,
  taped: TapedDistance,
): BorderlineCheck | NotEnough {
  if (!(Number.isFinite(taped.value) && taped.value >= 0))
    throw new RangeError(`distance: ${taped.value} is no distance; give a number of at least 0.`);
  const limit = limitingDistance(method, dbh);
  if (typeof limit !== 'number') return limit;
  if (taped.to === 'face' && dbh === undefined)
    return notEnough('a distance to the face of the tree needs its DBH; half of it is added.');
  const along = lengthIn(taped.value, taped.unit, 'm');
  const level = taped.slope === undefined ? along : horizontalDistance(along, taped.slope);
  const distance = taped.to === 'face' && dbh ? level + lengthIn(dbh.value, dbh.unit, 'm') / 2 : level;
  return { in: distance <= limit, distance, limit, margin: limit - distance };
}

/**
 * How many stems per acre or hectare one tree of the plot stands for.
 *
 * A plot laid out along a slope covers, seen from above, an ellipse whose area is the circle's times the cosine of the
 * slope; its trees stand for as much more. The same holds for every tree of a gauge that was not tilted with the slope.
 *
 * @param dbh needed for an angle gauge only
 * @throws RangeError as `limitingDistance`
 */
export function stemsPerArea(
  layout: PlotLayout,
  dbh: Diameter | undefined,
  per: 'ac' | 'ha',
): number | NotEnough {
  const limit = limitingDistance(layout.method, dbh);
  if (typeof limit !== 'number')
    return notEnough('how many stems a tree of an angle gauge stands for needs its DBH.');
  return stemsOfCircle(limit, per) / (layout.alongSlope === undefined ? 1 : slopeCosine(layout.alongSlope));
}

/** How many stems per acre or hectare one tree stands for that was found on a level circle of this radius, metres. */
export function stemsOfCircle(radius: number, per: 'ac' | 'ha'): number {
  return 1 / areaIn(Math.PI * radius ** 2, 'm2', per);
}

/**
 * The basal area per acre or hectare that one tree of the plot stands for; for an angle gauge its factor, whatever the
 * DBH.
 *
 * @throws RangeError as `limitingDistance`
 */
export function basalAreaPerArea(
  layout: PlotLayout,
  dbh: Diameter | undefined,
  unit: BasalAreaPerArea,
): number | NotEnough {
  const { method, alongSlope } = layout;
  if (method.is === 'angle-gauge') {
    const factor = perAreaIn(above0('factor', method.factor), method.unit, unit);
    return factor / (alongSlope === undefined ? 1 : slopeCosine(alongSlope));
  }
  if (dbh === undefined)
    return notEnough('the basal area on a plot of fixed radius needs the DBH of every tree.');
  const [per, area] = unit === 'ft2/ac' ? (['ac', 'ft2'] as const) : (['ha', 'm2'] as const);
  const stems = stemsPerArea(layout, dbh, per);
  return typeof stems === 'number' ? stems * basalArea(above0('dbh', dbh.value), dbh.unit, area) : stems;
}

/** @throws RangeError for what is not above 0 */
export function above0(name: string, value: number): number {
  if (Number.isFinite(value) && value > 0) return value;
  throw new RangeError(`${name}: ${value} cannot be; give a number above 0.`);
}
