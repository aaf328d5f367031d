// What sample plots say of the land between them: live basal area and stems, block by block and over blocks by area.
import {
  areaIn,
  borderlineCheck,
  isAreaUnit,
  isLengthUnit,
  isNotEnough,
  type NotEnough,
  notEnough,
  type PlotLayout,
  type PlotTree,
  plotBasalArea,
  plotStems,
  type SampleEstimate,
  type Stratum,
  type System,
  sampleEstimate,
  stratifiedEstimate,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { withUnit } from '../labels.ts';
import type { Block, Stand, Tallied } from '../state.ts';

type Plot = Tallied<'plot-tallied'>;
type Tree = NonNullable<Plot['body']['trees']>[number];
type Quantity = NonNullable<Tree['dbh']>;

/** An estimate with its method and the entries of its plots. */
export type SampleAnswer =
  | NotEnough
  | (SampleEstimate & Readonly<{ unit: string; method: string; source: string; restsOn: readonly string[] }>);

export type SampleRow = Readonly<{
  label: string;
  plots: number;
  basalArea: SampleAnswer;
  stems: SampleAnswer;
}>;
export type SampleFigures = Readonly<{
  /** One row for each block; plots of no block have a row of their own. */
  blocks: readonly SampleRow[];
  /** Over all blocks, each weighed by its area. */
  all: SampleRow;
  remarks: readonly string[];
}>;

const source =
  'plots: geometry; t interval: Student 1908; strata: Cochran 1977, Satterthwaite 1946 (from memory)';

/** Live trees that are in, from the last visit to each plot. */
export function sampleFigures({ stand }: Folded, system: System): SampleFigures {
  const parts = partsOf(stand);
  const rows = parts.map(({ block, plots }) => ({
    label: block?.name ?? 'in no block',
    plots: plots.length,
    basalArea: simple(plots, basalAreaOf(system), basalAreaUnit(system)),
    stems: simple(plots, stemsOf(system), stemsUnit(system)),
  }));
  return {
    blocks: rows,
    all: {
      label: 'All',
      plots: rows.reduce((sum, row) => sum + row.plots, 0),
      basalArea: stratified(parts, basalAreaOf(system), basalAreaUnit(system)),
      stems: stratified(parts, stemsOf(system), stemsUnit(system)),
    },
    remarks: [
      'Plots are taken as a random sample of the land. If somebody chose where they lie, the interval says too little.',
      'Of a plot that was tallied several times the last visit counts. Dead trees are left out.',
      ...floorsOf(parts),
    ],
  };
}

/** From which DBH on trees were tallied; where plots differ, every one of them. */
function floorsOf(parts: readonly Part[]): string[] {
  const floors = parts.flatMap(({ plots }) =>
    plots.map(({ body }) => (body.floor === undefined ? 'not stated' : withUnit(body.floor))),
  );
  return floors.length === 0 ? [] : [`Smallest DBH that was tallied: ${[...new Set(floors)].join(', ')}.`];
}

type PerPlot = (plot: Plot) => number | NotEnough;
type Part = Readonly<{ block: Block | undefined; plots: readonly Plot[] }>;

const basalAreaUnit = (system: System) => (system === 'inch' ? 'ft2/ac' : 'm2/ha');
const stemsUnit = (system: System) => (system === 'inch' ? 'stems/ac' : 'stems/ha');
const basalAreaOf =
  (system: System): PerPlot =>
  (plot) =>
    inPlot(plot, (layout, trees) => plotBasalArea(layout, trees, basalAreaUnit(system)));
const stemsOf =
  (system: System): PerPlot =>
  (plot) =>
    inPlot(plot, (layout, trees) => plotStems(layout, trees, stemsUnit(system)));

function partsOf(stand: Stand): Part[] {
  const byBlock = new Map<string, Plot[]>();
  for (const plot of lastVisits(stand)) {
    const block = plot.body.block ?? '';
    byBlock.set(block, [...(byBlock.get(block) ?? []), plot]);
  }
  return [...byBlock].map(([id, plots]) => ({ block: stand.blocks.get(id), plots }));
}

function lastVisits(stand: Stand): Plot[] {
  const last = new Map<string, Plot>();
  for (const plot of stand.plots)
    last.set(JSON.stringify([plot.body.block ?? '', plot.body.plot.trim().toLowerCase()]), plot);
  return [...last.values()];
}

function simple(plots: readonly Plot[], of: PerPlot, unit: string): SampleAnswer {
  const values = valuesOf(plots, of);
  return isNotEnough(values) ? values : answered(sampleEstimate(values), plots, unit, 'mean of plots');
}

function stratified(parts: readonly Part[], of: PerPlot, unit: string): SampleAnswer {
  const plots = parts.flatMap((part) => part.plots);
  const strata: Stratum[] = [];
  for (const part of parts) {
    const name = part.block?.name ?? 'in no block';
    const area = part.block?.tallyScope?.body.area ?? part.block?.area;
    if (area === undefined || !isAreaUnit(area.unit) || !(Number(area.value) > 0))
      return notEnough(`the area of ${name} is not recorded, so it cannot be weighed.`);
    const values = valuesOf(part.plots, of);
    if (isNotEnough(values)) return values;
    strata.push({ name, area: areaIn(Number(area.value), area.unit, 'ha'), values });
  }
  return answered(stratifiedEstimate(strata), plots, unit, 'mean over blocks, weighed by their areas');
}

function answered(
  estimate: SampleEstimate | NotEnough,
  plots: readonly Plot[],
  unit: string,
  method: string,
): SampleAnswer {
  if (isNotEnough(estimate)) return estimate;
  return { ...estimate, unit, method, source, restsOn: plots.map(({ entry }) => entry) };
}

/** One number for each plot; the first plot that has none says why. */
function valuesOf(plots: readonly Plot[], of: PerPlot): number[] | NotEnough {
  const values: number[] = [];
  for (const plot of plots) {
    const value = of(plot);
    if (isNotEnough(value))
      return notEnough(`plot ${plot.body.plot}: ${value.notEnough.replace(/^not enough data: /, '')}`);
    values.push(value);
  }
  return values;
}

function inPlot(
  { body }: Plot,
  add: (layout: PlotLayout, trees: readonly PlotTree[]) => number | NotEnough,
): number | NotEnough {
  const layout = layoutOf(body);
  if (isNotEnough(layout)) return layout;
  const trees: PlotTree[] = [];
  for (const tree of body.trees ?? []) {
    if (tree.dead === true || tree.is === 'out') continue;
    const belongs = tree.is === 'borderline' ? decided(layout, tree) : true;
    if (isNotEnough(belongs)) return belongs;
    const dbh = above0(tree.dbh);
    if (belongs) trees.push(dbh === undefined ? {} : { dbh });
  }
  return add(layout, trees);
}

function layoutOf({ method, plotRadius, factor, laidOut, slope }: Plot['body']): PlotLayout | NotEnough {
  const alongSlope =
    laidOut === 'along-the-slope' && slope
      ? { alongSlope: { value: Number(slope.value), unit: slope.unit } }
      : {};
  if (method === 'angle-gauge')
    return factor === undefined
      ? notEnough('its factor is missing.')
      : { method: { is: method, factor: Number(factor.value), unit: factor.unit }, ...alongSlope };
  const radius = above0(plotRadius);
  return radius === undefined
    ? notEnough('its radius is missing.')
    : { method: { is: method, radius: radius.value, unit: radius.unit }, ...alongSlope };
}

/** Whether a borderline tree is in. Its distance is taken as the plot was laid out: level, or along the slope. */
function decided(layout: PlotLayout, tree: Tree): boolean | NotEnough {
  const { distance, distanceTo = 'center' } = tree;
  const dbh = above0(tree.dbh);
  if (distance === undefined || !isLengthUnit(distance.unit) || !(Number(distance.value) >= 0))
    return notEnough('a borderline tree has no distance.');
  const taped = { value: Number(distance.value), unit: distance.unit, to: distanceTo } as const;
  const check = borderlineCheck(layout.method, dbh, taped);
  return isNotEnough(check) ? check : check.in;
}

function above0(quantity: Quantity | undefined) {
  const value = Number(quantity?.value);
  return quantity !== undefined && isLengthUnit(quantity.unit) && value > 0
    ? { value, unit: quantity.unit }
    : undefined;
}
