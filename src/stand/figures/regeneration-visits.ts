// Regeneration plots of one visit: where a visit ends, and the plots as the formulas take them.
import { speciesName } from '../../events/index.ts';
import { type NotEnough, notEnough, type RegenerationPlot, type VisitPlots } from '../../measure/index.ts';
import { instantOf } from '../entry.ts';
import type { Tallied } from '../state.ts';
import { asPositiveLength } from './length.ts';

export type Counted = Tallied<'regeneration-counted'>;

/** More days than these between two plots make two visits of them. Common practice, no source: one season's work. */
export const BETWEEN_VISITS_DAYS = 60;
const DAY = 86_400_000;

/** A visit ends where a plot comes up that it has already, and where nothing was counted for long. */
export function visitsOf(plots: readonly Counted[]): Counted[][] {
  const visits: Counted[][] = [];
  let seen = new Set<string>();
  for (const plot of plots) {
    const label = nameOf(plot.body);
    const visit = visits.at(-1);
    const last = visit?.at(-1);
    const later = last !== undefined && instantOf(plot.at) - instantOf(last.at) > BETWEEN_VISITS_DAYS * DAY;
    if (visit === undefined || later || seen.has(label)) {
      visits.push([plot]);
      seen = new Set([label]);
    } else {
      visit.push(plot);
      seen.add(label);
    }
  }
  return visits;
}

/** The plots of a visit by what they are called. */
export function plotsOf(visit: readonly Counted[]): VisitPlots | NotEnough {
  const plots = new Map<string, RegenerationPlot>();
  for (const { body } of visit) {
    const plot = plotOf(body);
    if (plot === undefined) return notEnough('the radius of a plot is missing.');
    plots.set(nameOf(body), plot);
  }
  return plots;
}

function nameOf({ plot }: Counted['body']): string {
  return plot.trim().toLowerCase();
}

function plotOf({ plotRadius, counts = [] }: Counted['body']): RegenerationPlot | undefined {
  const radius = asPositiveLength(plotRadius);
  if (radius === undefined) return undefined;
  return {
    radius,
    counts: counts.map(({ species, heightClass, count }) => ({
      species: speciesName(species),
      heightClass,
      count,
    })),
  };
}
