/** What the trees of one plot come to per acre or hectare. */
import { isNotEnough, lacking, type NotEnough, notEnough } from '../figure.ts';
import type { BasalAreaPerArea, StemsPerArea } from '../per-area.ts';
import type { Diameter } from '../stems/tally.ts';
import { basalAreaPerArea, type PlotLayout, stemsPerArea } from './plot.ts';

/** One tree that is in. */
export type PlotTree = Readonly<{ dbh?: Diameter }>;

/** Basal area per area of a plot, from its trees that are in; an empty plot has 0, and counts. */
export function plotBasalArea(
  layout: PlotLayout,
  trees: readonly PlotTree[],
  unit: BasalAreaPerArea,
): number | NotEnough {
  return total(trees, ({ dbh }) => basalAreaPerArea(layout, dbh, unit), 'a DBH');
}

/** Stems per area of a plot, from its trees that are in. */
export function plotStems(
  layout: PlotLayout,
  trees: readonly PlotTree[],
  unit: StemsPerArea,
): number | NotEnough {
  return total(trees, ({ dbh }) => stemsPerArea(layout, dbh, perOf(unit)), 'a DBH');
}

/**
 * Anything that each tree has so much of, such as volume, per acre or hectare.
 *
 * @param amountOf how much one tree has, undefined where it is not known
 * @param what the word for it when it is missing
 */
export function plotAmount<Tree extends PlotTree>(
  layout: PlotLayout,
  trees: readonly Tree[],
  per: 'ac' | 'ha',
  amountOf: (tree: Tree) => number | undefined,
  what: string,
): number | NotEnough {
  return total(
    trees,
    (tree) => {
      const amount = amountOf(tree);
      const stems = stemsPerArea(layout, tree.dbh, per);
      if (amount === undefined || isNotEnough(stems)) return notEnough(`${what} is missing.`);
      return amount * stems;
    },
    what,
  );
}

function perOf(unit: StemsPerArea): 'ac' | 'ha' {
  return unit === 'stems/ac' ? 'ac' : 'ha';
}

function total<Tree>(
  trees: readonly Tree[],
  each: (tree: Tree) => number | NotEnough,
  what: string,
): number | NotEnough {
  const values = trees.map(each);
  const known = values.filter((value) => typeof value === 'number');
  const missing = values.length - known.length;
  if (missing > 0)
    return notEnough(
      `${lacking(missing, values.length, 'tree of the plot', what.replace(/^an? /, ''), 'trees of the plot')}.`,
    );
  return known.reduce((sum, value) => sum + value, 0);
}
