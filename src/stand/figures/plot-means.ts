// From plots to the land between them: the mean of anything that each plot has so much of per area, of one block or
// over blocks by area.
import {
  areaIn,
  isNotEnough,
  type NotEnough,
  notEnough,
  plotBasalArea,
  plotStems,
  type Stratum,
  type System,
  sampleEstimate,
  stratifiedEstimate,
} from '../../measure/index.ts';
import { withUnit } from '../labels.ts';
import { type SampledFigure, sampledFigure } from './estimated.ts';
import { asArea } from './length.ts';
import { type InTree, type Plot, type PlotRead, type PlotsOfBlock, readPlot } from './plots.ts';

export type SampleAnswer = SampledFigure | NotEnough;

/** Something that each plot has so much of, per area of land; method and source beside those of plots in general. */
export type Measure = Readonly<{
  unit: string;
  method?: string;
  source?: string;
  of: (plot: PlotRead) => number | NotEnough;
}>;

const all = () => true;

/** @param counts which of the trees that are in are meant; all if left out */
export function basalAreaMeasure(system: System, counts: (tree: InTree) => boolean = all): Measure {
  const unit = system === 'inch' ? 'ft2/ac' : 'm2/ha';
  return { unit, of: ({ layout, trees }) => plotBasalArea(layout, trees.filter(counts), unit) };
}

/** @param counts which of the trees that are in are meant; all if left out */
export function stemsMeasure(system: System, counts: (tree: InTree) => boolean = all): Measure {
  const unit = system === 'inch' ? 'stems/ac' : 'stems/ha';
  return { unit, of: ({ layout, trees }) => plotStems(layout, trees.filter(counts), unit) };
}

/** The mean of plots that stand for the same land. */
export function meanOfPlots(plots: readonly Plot[], measure: Measure): SampleAnswer {
  const values = valuesOf(plots, measure);
  return isNotEnough(values)
    ? values
    : sampledFigure(sampleEstimate(values), originOf(plots, measure, 'mean of plots'));
}

/** The mean over blocks, each weighed by the area that its tally scope states, otherwise by its own. */
export function meanOverBlocks(parts: readonly PlotsOfBlock[], measure: Measure): SampleAnswer {
  const strata: Stratum[] = [];
  for (const { block, plots } of parts) {
    const name = block?.name ?? 'in no block';
    const area = asArea(block?.tallyScope?.body.area ?? block?.area);
    if (area === undefined || area.value <= 0)
      return notEnough(`the area of ${name} is not recorded, so it cannot be weighed.`);
    const values = valuesOf(plots, measure);
    if (isNotEnough(values)) return values;
    strata.push({ name, area: areaIn(area.value, area.unit, 'ha'), values });
  }
  const plots = parts.flatMap((part) => part.plots);
  const origin = originOf(plots, measure, 'mean over blocks, weighed by their areas');
  return sampledFigure(stratifiedEstimate(strata), origin);
}

function originOf(plots: readonly Plot[], { unit, method, source }: Measure, how: string) {
  return {
    unit,
    method: method === undefined ? how : `${how}; ${method}`,
    source: [
      'plots: geometry; t interval: Student 1908; strata: Cochran 1977, Satterthwaite 1946 (from memory)',
      ...(source === undefined ? [] : [source]),
    ].join('; '),
    restsOn: plots.map(({ entry }) => entry),
  };
}

/** One number for each plot; the first plot that has none says why. */
function valuesOf(plots: readonly Plot[], { of }: Measure): number[] | NotEnough {
  const values: number[] = [];
  for (const plot of plots) {
    const read = readPlot(plot);
    const value = isNotEnough(read) ? read : of(read);
    if (isNotEnough(value))
      return notEnough(`plot ${plot.body.plot}: ${value.notEnough.replace(/^not enough data: /, '')}`);
    values.push(value);
  }
  return values;
}

/** What must be read with every figure from plots. */
export function plotRemarks(plots: readonly Plot[]): string[] {
  const floors = plots.map(({ body }) => (body.floor === undefined ? 'not stated' : withUnit(body.floor)));
  return [
    'Plots are taken as a random sample of the land. If somebody chose where they lie, the interval says too little.',
    'Of a plot that was tallied several times the last visit counts. Dead trees are left out.',
    ...(floors.length === 0 ? [] : [`Smallest DBH that was tallied: ${[...new Set(floors)].join(', ')}.`]),
  ];
}
