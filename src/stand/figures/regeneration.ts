// Young trees per acre or hectare and the share of stocked plots, visit by visit, and from each visit to the next.
import {
  isNotEnough,
  type NotEnough,
  type RegenerationPlot,
  type RegenerationQuestion,
  regenerationEstimate,
  type System,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { type SampledFigure, type ShareFigure, sampledFigure, shareFigure } from './estimated.ts';
import { type RegenerationStep, stepOf } from './regeneration-steps.ts';
import { BETWEEN_VISITS_DAYS, type Counted, plotsOf, visitsOf } from './regeneration-visits.ts';
import type { TracedFigure } from './traced.ts';

export type RegenerationAsked = Readonly<{
  /** Ids; one of them. Plots of a block are those that name the block, and not those of its groups. */
  group?: string;
  block?: string;
  system: System;
  /** How many young trees make a plot stocked, 1 if left out. */
  stockedFrom?: number;
}>;

/** All plots that were counted before one of them was counted again, or a long time went by. */
export type RegenerationVisit = Readonly<{
  /** When the first and the last of its plots were counted, RFC 3339. */
  from: string;
  to: string;
  /** The method in the words of the entries; several where they differ. */
  methods: readonly string[];
  estimate: VisitEstimate | NotEnough;
  restsOn: readonly string[];
}>;

export type VisitEstimate = Readonly<{
  plots: number;
  /** Stems per area; what is missing with one plot. */
  stems: SampledFigure | NotEnough;
  /** Share of the plots with at least `stockedFrom` stems. */
  stocking: ShareFigure | NotEnough;
  stockedFrom: number;
  /** Mean stems per area of each species and height class, most first. */
  table: readonly Readonly<{ species: string; heightClass: string; stems: TracedFigure }>[];
}>;

export type RegenerationFigures = Readonly<{
  visits: readonly RegenerationVisit[];
  /** One fewer than visits. */
  steps: readonly RegenerationStep[];
  remarks: readonly string[];
}>;

/** The visits to the regeneration plots of a group or block, the first one first. */
export function regenerationFigures({ stand }: Folded, asked: RegenerationAsked): RegenerationFigures {
  const plots = stand.regeneration.filter(({ body }) =>
    asked.group === undefined ? body.block === asked.block : body.group === asked.group,
  );
  const counted = visitsOf(plots);
  const visits = counted.map((visit) => visitFigures(visit, asked));
  const differ = new Set(visits.flatMap(({ methods }) => methods)).size > 1;
  return {
    visits,
    steps: counted.flatMap((later, position) => {
      const earlier = counted[position - 1];
      return earlier === undefined ? [] : [stepOf(earlier, later, questionOf(asked))];
    }),
    remarks: [
      'Plots are taken as a random sample of the ground.',
      `A visit ends where a plot is counted again, and where more than ${BETWEEN_VISITS_DAYS} days lie between two plots (common practice, no source).`,
      ...(differ ? ['The methods differ: the visits compare only as far as the methods do.'] : []),
    ],
  };
}

function visitFigures(visit: readonly Counted[], asked: RegenerationAsked): RegenerationVisit {
  const plots = plotsOf(visit);
  const restsOn = visit.map(({ entry }) => entry);
  return {
    from: visit[0]?.at.at ?? '',
    to: visit.at(-1)?.at.at ?? '',
    methods: [...new Set(visit.map(({ body }) => body.method))],
    estimate: isNotEnough(plots) ? plots : estimateOf([...plots.values()], asked, restsOn),
    restsOn,
  };
}

function estimateOf(
  plots: readonly RegenerationPlot[],
  asked: RegenerationAsked,
  restsOn: readonly string[],
): VisitEstimate | NotEnough {
  const estimate = regenerationEstimate(plots, questionOf(asked));
  if (isNotEnough(estimate)) return estimate;
  const { stems, unit, stocking, stockedFrom, table, source } = estimate;
  const circles = `plot count of ${plots.length} circles`;
  return {
    plots: estimate.plots,
    stems: sampledFigure(stems, { unit, method: `mean of plots: ${circles}`, source, restsOn }),
    stocking: shareFigure(stocking, {
      method: `plots with at least ${stockedFrom} on it, of ${plots.length}; exact interval`,
      source,
      restsOn,
    }),
    stockedFrom,
    table: table.map(({ species, heightClass, stems: value }) => ({
      species,
      heightClass,
      stems: { value, unit, method: circles, source, restsOn },
    })),
  };
}

function questionOf({ system, stockedFrom }: RegenerationAsked): RegenerationQuestion {
  const unit = system === 'inch' ? 'stems/ac' : 'stems/ha';
  return { unit, ...(stockedFrom === undefined ? {} : { stockedFrom }) };
}
