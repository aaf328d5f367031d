// Young trees per acre or hectare and the share of stocked plots, visit by visit, so that years can be compared.
import { speciesName } from '../../events/index.ts';
import {
  isLengthUnit,
  type NotEnough,
  notEnough,
  type RegenerationEstimate,
  type RegenerationPlot,
  regenerationEstimate,
  type System,
} from '../../measure/index.ts';
import { instantOf } from '../entry.ts';
import type { Folded } from '../fold.ts';
import type { Tallied } from '../state.ts';

type Counted = Tallied<'regeneration-counted'>;

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
  estimate: RegenerationEstimate | NotEnough;
  restsOn: readonly string[];
}>;

export type RegenerationFigures = Readonly<{
  visits: readonly RegenerationVisit[];
  remarks: readonly string[];
}>;

/** The visits to the regeneration plots of a group or block, the first one first. */
export function regenerationFigures({ stand }: Folded, asked: RegenerationAsked): RegenerationFigures {
  const plots = stand.regeneration.filter(({ body }) =>
    asked.group === undefined ? body.block === asked.block : body.group === asked.group,
  );
  const visits = visitsOf(plots).map((visit) => visitFigures(visit, asked));
  const differ = new Set(visits.flatMap(({ methods }) => methods)).size > 1;
  return {
    visits,
    remarks: [
      'Plots are taken as a random sample of the ground.',
      `A visit ends where a plot is counted again, and where more than ${BETWEEN_VISITS_DAYS} days lie between two plots (common practice, no source).`,
      ...(differ ? ['The methods differ: the visits compare only as far as the methods do.'] : []),
    ],
  };
}

/** More days than these between two plots make two visits of them. Common practice, no source: one season's work. */
const BETWEEN_VISITS_DAYS = 60;
const DAY = 86_400_000;

/** A visit ends where a plot comes up that it has already, and where nothing was counted for long. */
function visitsOf(plots: readonly Counted[]): Counted[][] {
  const visits: Counted[][] = [];
  let seen = new Set<string>();
  for (const plot of plots) {
    const label = plot.body.plot.trim().toLowerCase();
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

function visitFigures(
  visit: readonly Counted[],
  { system, stockedFrom }: RegenerationAsked,
): RegenerationVisit {
  const plots = visit.flatMap(({ body }) => plotOf(body) ?? []);
  const unit = system === 'inch' ? 'stems/ac' : 'stems/ha';
  return {
    from: visit[0]?.at.at ?? '',
    to: visit.at(-1)?.at.at ?? '',
    methods: [...new Set(visit.map(({ body }) => body.method))],
    estimate:
      plots.length < visit.length
        ? notEnough('the radius of a plot is missing.')
        : regenerationEstimate(plots, { unit, ...(stockedFrom === undefined ? {} : { stockedFrom }) }),
    restsOn: visit.map(({ entry }) => entry),
  };
}

function plotOf({ plotRadius, counts = [] }: Counted['body']): RegenerationPlot | undefined {
  const value = Number(plotRadius.value);
  if (!isLengthUnit(plotRadius.unit) || !(value > 0)) return undefined;
  return {
    radius: { value, unit: plotRadius.unit },
    counts: counts.map(({ species, heightClass, count }) => ({
      species: speciesName(species),
      heightClass,
      count,
    })),
  };
}
