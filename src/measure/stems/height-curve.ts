/**
 * Heights of trees that nobody measured, from a curve fitted to those that were. The curve speaks for the stand it
 * was fitted in and for the diameters it saw, and a measured height always wins.
 */
import type { Figure, NotEnough } from '../figure.ts';
import { notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';

/** A tree with measured DBH, in, and height, ft. */
export type MeasuredTree = Readonly<{ dbh: number; height: number }>;

/** Fewest trees, and the narrowest range of DBH (in), that a curve is fitted to. Common practice, no source. */
const CURVE_NEEDS = { trees: 8, range: 4 } as const;

const BREAST_HEIGHT = 4.5;
const FORM = 'H = 4.5 + exp(b0 + b1 / (DBH + 1))';

/**
 * A fitted curve: its coefficients, on how many trees it rests, the root mean square error of their heights (ft, with
 * n − 2 degrees of freedom), and the DBH it holds for.
 */
export type HeightCurve = Readonly<{
  form: typeof FORM;
  b0: number;
  b1: number;
  trees: number;
  rootMeanSquareError: number;
  dbhFrom: number;
  dbhTo: number;
}>;

/**
 * Fits `H = 4.5 + exp(b0 + b1 / (DBH + 1))` by least squares of ln(H − 4.5), in inches and feet. The form is from
 * memory (Wykoff et al. 1982). Least squares on the log scale sits a little under the mean of the heights; nothing is
 * added for that. Refused: fewer than 8 trees, a DBH range under 4 in, a tree under breast height, heights that do
 * not rise with DBH.
 */
export function fitHeightCurve(trees: readonly MeasuredTree[]): HeightCurve | NotEnough {
  for (const { dbh, height } of trees) {
    const wrong = outOfRange({ what: 'DBH', value: dbh, unit: 'in', least: 0 });
    if (wrong !== undefined) return wrong;
    if (!(height > BREAST_HEIGHT)) return notEnough(`a height of ${height} ft is not above breast height`);
  }
  if (trees.length < CURVE_NEEDS.trees) {
    return notEnough(`${trees.length} trees with DBH and height; a height curve needs ${CURVE_NEEDS.trees}`);
  }
  const diameters = trees.map(({ dbh }) => dbh);
  const [dbhFrom, dbhTo] = [Math.min(...diameters), Math.max(...diameters)];
  if (dbhTo - dbhFrom < CURVE_NEEDS.range) {
    return notEnough(
      `heights of trees from ${dbhFrom} to ${dbhTo} in DBH; a height curve needs a range of ${CURVE_NEEDS.range} in`,
    );
  }
  const { b0, b1 } = line(trees.map(({ dbh, height }) => [1 / (dbh + 1), Math.log(height - BREAST_HEIGHT)]));
  if (!(b1 < 0)) return notEnough('the measured heights do not rise with DBH, so no curve is fitted');
  const squares = trees.reduce((sum, { dbh, height }) => sum + (height - at(dbh, b0, b1)) ** 2, 0);
  const rootMeanSquareError = Math.sqrt(squares / (trees.length - 2));
  return { form: FORM, b0, b1, trees: trees.length, rootMeanSquareError, dbhFrom, dbhTo };
}

/** Ordinary least squares of y on x. */
function line(points: readonly (readonly [x: number, y: number])[]): Readonly<{ b0: number; b1: number }> {
  const count = points.length;
  const meanX = points.reduce((sum, [x]) => sum + x, 0) / count;
  const meanY = points.reduce((sum, [, y]) => sum + y, 0) / count;
  const across = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  const along = points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  const b1 = across / along;
  return { b0: meanY - b1 * meanX, b1 };
}

function at(dbh: number, b0: number, b1: number): number {
  return BREAST_HEIGHT + Math.exp(b0 + b1 / (dbh + 1));
}

/**
 * The height of a tree, ft: the measured one if there is one, else by the curve for a DBH within those it was fitted
 * to.
 */
export function heightOf(
  tree: Readonly<{ dbh: number | null; height: number | null }>,
  curve: HeightCurve | NotEnough,
): Figure | NotEnough {
  if (tree.height !== null) {
    return { value: tree.height, unit: 'ft', method: 'measured', source: 'measured on this tree' };
  }
  if ('notEnough' in curve) return curve;
  if (tree.dbh === null) return notEnough('neither height nor DBH was measured');
  const { b0, b1, trees, rootMeanSquareError, dbhFrom, dbhTo } = curve;
  if (!(tree.dbh >= dbhFrom && tree.dbh <= dbhTo)) {
    return notEnough(`heights were measured for DBH ${dbhFrom} to ${dbhTo} in, not for ${tree.dbh} in`);
  }
  return {
    value: at(tree.dbh, b0, b1),
    unit: 'ft',
    method: `height curve ${FORM} from ${trees} trees, root mean square error ${rootMeanSquareError.toFixed(1)} ft`,
    source: 'this logbook’s measured trees; form from memory: Wykoff et al. 1982',
  };
}
