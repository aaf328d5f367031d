/**
 * How regeneration changed from one visit to the next. Plots that were counted at both are held against themselves:
 * what differs from spot to spot then falls out. Where too few were, the visits are taken as two samples.
 */
import { type NotEnough, notEnough } from '../figure.ts';
import type { StemsPerArea } from '../per-area.ts';
import { type DifferenceEstimate, pairedDifference, welchDifference } from '../statistics/difference.ts';
import { type RegenerationPlot, type RegenerationQuestion, stemsOnPlot } from './regeneration.ts';

/** One visit: its plots by what they are called. */
export type VisitPlots = ReadonlyMap<string, RegenerationPlot>;

export type StockedCount = Readonly<{ stocked: number; plots: number }>;

export type RegenerationChange = Readonly<{
  /** Whether the plots are held against themselves. */
  paired: boolean;
  /** How many plots there were, and how many of them at both visits. */
  plots: Readonly<{ earlier: number; later: number; both: number }>;
  /** Stems per area, later minus earlier. */
  stems: DifferenceEstimate | NotEnough;
  unit: StemsPerArea;
  /** Percentage points of stocked plots, later minus earlier, and the counts it comes from. */
  stocking: Readonly<{ points: number; earlier: StockedCount; later: StockedCount }>;
  method: string;
  source: string;
}>;

/**
 * The difference between two visits. Paired when at least two plots, and half of the plots of either visit, were counted
 * at both; then only those count. Otherwise all plots of both visits, as independent samples. The half: no source.
 *
 * @returns what is missing when a visit has no plot
 * @throws RangeError as `regenerationEstimate`
 */
export function regenerationChange(
  earlier: VisitPlots,
  later: VisitPlots,
  question: RegenerationQuestion = {},
): RegenerationChange | NotEnough {
  if (earlier.size === 0 || later.size === 0) return notEnough('no regeneration plot was counted.');
  const { stockedFrom = 1, unit = 'stems/ac', level = 0.95 } = question;
  const seen = (plot: RegenerationPlot) => {
    const { stems, each } = stemsOnPlot(plot, question);
    return { perArea: stems * each, stocked: stems >= stockedFrom };
  };
  const before = new Map([...earlier].map(([name, plot]) => [name, seen(plot)]));
  const after = new Map([...later].map(([name, plot]) => [name, seen(plot)]));
  const both = [...before].flatMap(([name, one]) => {
    const other = after.get(name);
    return other === undefined ? [] : [[one, other] as const];
  });
  const paired = both.length >= 2 && 2 * both.length >= Math.max(before.size, after.size);
  const ones = paired ? both.map(([one]) => one) : [...before.values()];
  const others = paired ? both.map(([, other]) => other) : [...after.values()];
  const stems = paired
    ? pairedDifference(
        both.map(([one, other]) => [one.perArea, other.perArea]),
        level,
      )
    : welchDifference(
        ones.map(({ perArea }) => perArea),
        others.map(({ perArea }) => perArea),
        level,
      );
  const [stockedBefore, stockedAfter] = [stockedOf(ones), stockedOf(others)];
  return {
    paired,
    plots: { earlier: before.size, later: after.size, both: both.length },
    stems,
    unit,
    stocking: {
      points: 100 * (shareOf(stockedAfter) - shareOf(stockedBefore)),
      earlier: stockedBefore,
      later: stockedAfter,
    },
    method: paired
      ? `paired t interval over the ${both.length} plots that were counted at both visits`
      : `Welch's t interval over ${before.size} and ${after.size} plots, taken as two samples`,
    source: paired ? 'Student 1908' : 'Welch 1947',
  };
}

function stockedOf(plots: readonly Readonly<{ stocked: boolean }>[]): StockedCount {
  return { stocked: plots.filter(({ stocked }) => stocked).length, plots: plots.length };
}

function shareOf({ stocked, plots }: StockedCount): number {
  return stocked / plots;
}
