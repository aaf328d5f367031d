// What sample plots say of the land between them: live basal area, stems and volume, block by block and over blocks.
import type { System } from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import {
  basalAreaMeasure,
  type Measure,
  meanOfPlots,
  meanOverBlocks,
  plotRemarks,
  type SampleAnswer,
  stemsMeasure,
} from './plot-means.ts';
import { plotsByBlock } from './plots.ts';
import { volumeMeasure } from './sampled-volume.ts';
import type { StandingMethod } from './standing-volume.ts';

export type SampleRow = Readonly<{
  label: string;
  plots: number;
  basalArea: SampleAnswer;
  stems: SampleAnswer;
  /** Null when no rule was asked for. */
  volume: SampleAnswer | null;
}>;
export type SampleFigures = Readonly<{
  /** By which rule there is a volume; null when none was asked for. */
  rule: StandingMethod['rule'] | null;
  /** One row for each block; plots of no block have a row of their own. */
  blocks: readonly SampleRow[];
  /** Over all blocks, each weighed by its area. */
  all: SampleRow;
  remarks: readonly string[];
}>;

export type SamplesAsked = Readonly<{ system: System; method?: StandingMethod }>;

/** Live trees that are in, from the last visit to each plot. */
export function sampleFigures({ stand }: Folded, { system, method }: SamplesAsked): SampleFigures {
  const parts = plotsByBlock(stand);
  const plots = parts.flatMap((part) => part.plots);
  const volume = method === undefined ? undefined : volumeMeasure(stand, method, system);
  const row = (label: string, count: number, of: (measure: Measure) => SampleAnswer): SampleRow => ({
    label,
    plots: count,
    basalArea: of(basalAreaMeasure(system)),
    stems: of(stemsMeasure(system)),
    volume: volume === undefined ? null : of(volume),
  });
  return {
    rule: method?.rule ?? null,
    blocks: parts.map((part) =>
      row(part.block?.name ?? 'in no block', part.plots.length, (measure) =>
        meanOfPlots(part.plots, measure),
      ),
    ),
    all: row('All', plots.length, (measure) => meanOverBlocks(parts, measure)),
    remarks: [
      ...plotRemarks(plots),
      ...(method === undefined
        ? []
        : ['Volumes are gross, an estimate of standing trees: decay and other defects are not taken off.']),
    ],
  };
}
