// How regeneration changed from one visit to the next, with its uncertainty, and no verdict.
import {
  isNotEnough,
  type NotEnough,
  type RegenerationChange,
  type RegenerationQuestion,
  regenerationChange,
  type StockedCount,
} from '../../measure/index.ts';
import { type DifferenceFigure, differenceFigure } from './estimated.ts';
import { type Counted, plotsOf } from './regeneration-visits.ts';
import type { TracedFigure } from './traced.ts';

/** From one visit to the next, later minus earlier. No verdict. */
export type RegenerationStep = Readonly<{
  /** When the last plot of the earlier visit and the first one of the later visit were counted. */
  from: string;
  to: string;
  change: VisitChange | NotEnough;
}>;

export type VisitChange = Readonly<{
  /** Whether plots are held against themselves. */
  paired: boolean;
  plots: RegenerationChange['plots'];
  stems: DifferenceFigure | NotEnough;
  /** Percentage points of stocked plots, and the counts behind it. */
  stocking: TracedFigure & Readonly<{ earlier: StockedCount; later: StockedCount }>;
}>;

/** Two visits, one after the other. */
export function stepOf(
  earlier: readonly Counted[],
  later: readonly Counted[],
  question: RegenerationQuestion,
): RegenerationStep {
  return {
    from: earlier.at(-1)?.at.at ?? '',
    to: later[0]?.at.at ?? '',
    change: changeOf(earlier, later, question),
  };
}

function changeOf(
  earlier: readonly Counted[],
  later: readonly Counted[],
  question: RegenerationQuestion,
): VisitChange | NotEnough {
  const [before, after] = [plotsOf(earlier), plotsOf(later)];
  if (isNotEnough(before)) return before;
  if (isNotEnough(after)) return after;
  const found = regenerationChange(before, after, question);
  if (isNotEnough(found)) return found;
  const { paired, plots, stems, stocking, unit, method, source } = found;
  const restsOn = [...earlier, ...later].map(({ entry }) => entry);
  const { points, ...counts } = stocking;
  return {
    paired,
    plots,
    stems: isNotEnough(stems) ? stems : differenceFigure(stems, { unit, method, source, restsOn }),
    stocking: {
      value: points,
      unit: 'percentage points',
      method: paired
        ? 'difference of the shares of stocked plots, of those counted at both visits'
        : 'difference of the shares of stocked plots',
      source: 'definition',
      restsOn,
      ...counts,
    },
  };
}
