// A block whose tally is stated to be a sample: its stand per area of land from the plots, row by row, with its error.
import { isNotEnough, type NotEnough, notEnough, type SizeClass } from '../../measure/index.ts';
import type { Stand } from '../state.ts';
import { isUnder } from './counted.ts';
import { asPositiveLength, lengthOf } from './length.ts';
import { basalAreaMeasure, meanOfPlots, plotRemarks, type SampleAnswer, stemsMeasure } from './plot-means.ts';
import { type InTree, plotsByBlock, readPlot } from './plots.ts';
import { type RowsAsked, rowsOf } from './row-keys.ts';

export type SampledRow = Readonly<{
  label: string;
  size: SizeClass | null;
  stems: SampleAnswer;
  basalArea: SampleAnswer;
}>;

/** Live trees per acre or hectare as they stood at the last visit to each plot. */
export type SampledStand = Readonly<{
  plots: number;
  /** When the first and the last of these plots were tallied, RFC 3339. */
  from: string;
  to: string;
  rows: readonly SampledRow[];
  total: SampledRow;
  remarks: readonly string[];
}>;

type Asked = RowsAsked & Readonly<{ block: string; floor?: Readonly<{ value: number; unit: string }> }>;

/** @param block id of a block whose tally scope is `sampled` */
export function sampledStand(stand: Stand, asked: Asked): SampledStand | NotEnough {
  const { block, by, system, floor } = asked;
  if (by === 'group')
    return notEnough('plots stand for a block and not for its groups; ask by class or species.');
  const plots = plotsByBlock(stand).find((part) => part.block?.id === block)?.plots ?? [];
  const [first] = plots;
  if (first === undefined)
    return notEnough(
      'the tally is stated to be a sample, and no plot of the block is recorded ("plot tallied").',
    );
  const counts = ({ row }: InTree) => !isUnder(asPositiveLength(row.dbh), floor);
  const trees: InTree[] = [];
  for (const plot of plots) {
    const read = readPlot(plot);
    // The mean of the whole says which plot it is and what is missing.
    if (!isNotEnough(read)) trees.push(...read.trees.filter(counts));
  }
  const figures = (of: (tree: InTree) => boolean) => ({
    stems: meanOfPlots(plots, stemsMeasure(system, of)),
    basalArea: meanOfPlots(plots, basalAreaMeasure(system, of)),
  });
  const told = ({ row }: InTree) => ({ species: row.species, inches: lengthOf(row.dbh, 'in') });
  const times = plots.map(({ at }) => at.at).sort((one, other) => Date.parse(one) - Date.parse(other));
  return {
    plots: plots.length,
    from: times[0] ?? first.at.at,
    to: times.at(-1) ?? first.at.at,
    rows: rowsOf(trees, told, stand, asked).map(({ label, size, of }) => {
      const rows = new Set(of.map(({ row }) => row));
      return { label, size, ...figures(({ row }) => rows.has(row)) };
    }),
    total: { label: 'All', size: null, ...figures(counts) },
    remarks: plotRemarks(plots),
  };
}
