/**
 * Regeneration plots: small circles on which young trees are counted by species and height class; how many there are
 * per acre or hectare, and how much of the ground is stocked. Two numbers, because a thousand seedlings in one spot and
 * a thousand everywhere have the same count and not the same stocking.
 */
import { type NotEnough, notEnough } from '../figure.ts';
import type { StemsPerArea } from '../per-area.ts';
import { exactInterval, type ShareInterval } from '../statistics/proportion.ts';
import { type LengthUnit, lengthIn } from '../units.ts';
import { type SampleEstimate, sampleEstimate } from './estimate.ts';
import { above0, stemsOfCircle } from './plot.ts';

/** So many young trees of one species and height class. */
export type RegenerationCount = Readonly<{ species: string; heightClass: string; count: number }>;

export type RegenerationPlot = Readonly<{
  /** Horizontal radius. */
  radius: Readonly<{ value: number; unit: LengthUnit }>;
  /** Empty when nothing grew there: such a plot counts too. */
  counts: readonly RegenerationCount[];
}>;

export type RegenerationEstimate = Readonly<{
  plots: number;
  /** Stems per area, with its error; what is missing with one plot. */
  stems: SampleEstimate | NotEnough;
  unit: StemsPerArea;
  /** The share of plots with at least `stockedFrom` stems, with its exact interval. */
  stocking: ShareInterval;
  stockedFrom: number;
  /** Mean stems per area of each species and height class, most first. */
  table: readonly Readonly<{ species: string; heightClass: string; stems: number }>[];
  method: string;
  source: string;
}>;

export type RegenerationQuestion = Readonly<{
  /** Which of the counted trees are meant, such as oaks above the browse line; all by default. */
  counted?: (count: RegenerationCount) => boolean;
  /** How many of them make a plot stocked, 1 by default. */
  stockedFrom?: number;
  unit?: StemsPerArea;
  level?: number;
}>;

/**
 * Stems per area and stocking from regeneration plots of one visit.
 *
 * @returns what is missing when there is no plot
 * @throws RangeError for a count that is no whole number, a radius not above 0, or `stockedFrom` under 1
 */
export function regenerationEstimate(
  plots: readonly RegenerationPlot[],
  { counted = () => true, stockedFrom = 1, unit = 'stems/ac', level = 0.95 }: RegenerationQuestion = {},
): RegenerationEstimate | NotEnough {
  if (!Number.isInteger(stockedFrom) || stockedFrom < 1)
    throw new RangeError(`stockedFrom: ${stockedFrom} is no count; give a whole number of at least 1.`);
  if (plots.length === 0) return notEnough('no regeneration plot was counted.');
  const seen = plots.map((plot) => stemsOnPlot(plot, { counted, unit }));
  return {
    plots: plots.length,
    stems: sampleEstimate(
      seen.map(({ stems, each }) => stems * each),
      level,
    ),
    unit,
    stocking: exactInterval(seen.filter(({ stems }) => stems >= stockedFrom).length, plots.length, level),
    stockedFrom,
    table: tableOf(seen, plots.length),
    method: `plot count of ${plots.length} circles for stems; stocked plots (at least ${stockedFrom} on it) for stocking`,
    source: 'definitions; exact interval of Clopper & Pearson 1934 for stocking',
  };
}

type Seen = Readonly<{ stems: number; each: number; counts: readonly RegenerationCount[] }>;

/** What was seen on one plot, and how many stems per area each of them stands for. Errors as above. */
export function stemsOnPlot(
  { radius, counts }: RegenerationPlot,
  { counted = () => true, unit = 'stems/ac' }: Pick<RegenerationQuestion, 'counted' | 'unit'>,
): Seen {
  const wrong = counts.find(({ count }) => !Number.isInteger(count) || count < 0);
  if (wrong)
    throw new RangeError(`count: ${wrong.count} of ${wrong.species} is no count; give a whole number.`);
  const metres = lengthIn(above0('radius', radius.value), radius.unit, 'm');
  const meant = counts.filter(counted);
  return {
    stems: meant.reduce((sum, { count }) => sum + count, 0),
    each: stemsOfCircle(metres, unit === 'stems/ac' ? 'ac' : 'ha'),
    counts: meant,
  };
}

function tableOf(seen: readonly Seen[], plots: number): RegenerationEstimate['table'] {
  const rows = new Map<string, { species: string; heightClass: string; stems: number }>();
  for (const { each, counts } of seen) {
    for (const { species, heightClass, count } of counts) {
      const key = JSON.stringify([species, heightClass]);
      const row = rows.get(key) ?? { species, heightClass, stems: 0 };
      row.stems += (count * each) / plots;
      rows.set(key, row);
    }
  }
  return [...rows.values()].sort((one, other) => other.stems - one.stems);
}
