// Tallied plots as the formulas take them: the last visit to each, its layout, and the live trees that are in.
import {
  borderlineCheck,
  isNotEnough,
  type NotEnough,
  notEnough,
  type PlotLayout,
  type PlotTree,
} from '../../measure/index.ts';
import type { Block, Stand, Tallied } from '../state.ts';
import { asLength, asPositiveLength } from './length.ts';

export type Plot = Tallied<'plot-tallied'>;
type Row = NonNullable<Plot['body']['trees']>[number];

/** A tree that is in, with the row that it was written in. */
export type InTree = PlotTree & Readonly<{ row: Row }>;

/** What one plot gives to a sum: its layout and its trees, or what is missing of it. */
export type PlotRead = Readonly<{ layout: PlotLayout; trees: readonly InTree[] }>;

/** The plots of one block, or those of none. */
export type PlotsOfBlock = Readonly<{ block: Block | undefined; plots: readonly Plot[] }>;

/** The last visit to each plot, block by block. */
export function plotsByBlock(stand: Stand): PlotsOfBlock[] {
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

/** Layout and live trees of a plot; a borderline tree that nothing decides leaves it without. */
export function readPlot({ body }: Plot): PlotRead | NotEnough {
  const layout = layoutOf(body);
  if (isNotEnough(layout)) return layout;
  const trees: InTree[] = [];
  for (const row of body.trees ?? []) {
    if (row.dead === true || row.is === 'out') continue;
    const belongs = row.is === 'borderline' ? decided(layout, row) : true;
    if (isNotEnough(belongs)) return belongs;
    const dbh = asPositiveLength(row.dbh);
    if (belongs) trees.push({ row, ...(dbh === undefined ? {} : { dbh }) });
  }
  return { layout, trees };
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
  const radius = asPositiveLength(plotRadius);
  return radius === undefined
    ? notEnough('its radius is missing.')
    : { method: { is: method, radius: radius.value, unit: radius.unit }, ...alongSlope };
}

/** Whether a borderline tree is in. Its distance is taken as the plot was laid out: level, or along the slope. */
function decided(layout: PlotLayout, { dbh, distance, distanceTo = 'center' }: Row): boolean | NotEnough {
  const taped = asLength(distance);
  if (taped === undefined || taped.value < 0) return notEnough('a borderline tree has no distance.');
  const check = borderlineCheck(layout.method, asPositiveLength(dbh), { ...taped, to: distanceTo });
  return isNotEnough(check) ? check : check.in;
}
