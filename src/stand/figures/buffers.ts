// Strips along streams, water, roads: which stems stand in them. Widths are those that were asked with, of no law.
import {
  apart,
  type BufferRule,
  bufferWidth,
  type InBuffer,
  inBuffer,
  isUnresolved,
  levelWidth,
  slopePercent,
} from '../../place/index.ts';
import type { Folded } from '../fold.ts';
import { type FeatureShape, featureShape } from '../ground.ts';
import { stemLabel } from '../labels.ts';
import type { Feature, Stand, Stem } from '../state.ts';
import { locate } from '../where.ts';
import { metresOf } from './edge-height.ts';

export type BuffersAsked = Readonly<{
  rule: BufferRule;
  /** Whether widths are measured along the slope, or level. */
  along: 'slope' | 'level';
  /** Label of a feature, or what it is, such as stream; all features if left out. */
  feature?: string;
}>;

export type BufferRow = Readonly<{
  feature: string;
  label: string;
  what: string;
  /** The steepest reading beside it, percent; null where none was entered. */
  slope: number | null;
  /** Level, metres; null where it cannot be told, and `missing` says why. */
  width: number | null;
  missing: string | null;
  stems: readonly Readonly<{
    stem: string;
    label: string;
    answer: Exclude<InBuffer, 'out'>;
    metres: number;
    felled: boolean;
    mark: 'cut' | 'leave' | null;
  }>[];
  out: number;
  restsOn: readonly string[];
}>;

export type BufferFigures = Readonly<{
  asked: BuffersAsked;
  rows: readonly BufferRow[];
  /** Stems whose place is not known. */
  nowhere: number;
  remarks: readonly string[];
}>;

export function bufferFigures({ stand }: Folded, asked: BuffersAsked): BufferFigures {
  const locator = locate(stand);
  const placed = [...stand.stems.values()].flatMap((stem) => {
    const at = locator.stem(stem.id);
    return isUnresolved(at) ? [] : [{ stem, at }];
  });
  const rows = featuresIn(stand, asked.feature).map((feature): BufferRow => {
    const shape = featureShape(feature, locator);
    const slope = steepest(feature);
    const width = isUnresolved(shape) ? undefined : widthFor(asked, slope);
    const judged = isUnresolved(shape) || width === undefined ? [] : judge(placed, { feature, shape, width });
    return {
      feature: feature.id,
      label: feature.label,
      what: feature.body?.what ?? '',
      slope: slope ?? null,
      width: width ?? null,
      missing: isUnresolved(shape)
        ? shape.why
        : width === undefined
          ? 'no slope was entered beside it; amend the entry with what the clinometer reads'
          : null,
      stems: judged.flatMap(({ answer, ...one }) => (answer === 'out' ? [] : [{ ...one, answer }])),
      out: judged.filter(({ answer }) => answer === 'out').length,
      restsOn: [...feature.entries],
    };
  });
  return {
    asked,
    rows,
    nowhere: stand.stems.size - placed.length,
    remarks: [
      'Widths are those that were asked with. Which hold here is a matter of the law and of the plan.',
      'Where several slopes were read beside a feature the steepest counts.',
      'A stem counts by its middle; in or out means by more than two standard errors of both positions.',
    ],
  };
}

function featuresIn(stand: Stand, wanted: string | undefined): Feature[] {
  const key = wanted?.toLowerCase().replaceAll(' ', '-');
  return [...stand.features.values()].filter(
    ({ label, body }) =>
      key === undefined || body?.what === key || label.toLowerCase().replaceAll(' ', '-') === key,
  );
}

function steepest({ body }: Feature): number | undefined {
  const read = (body?.sideSlopes ?? []).map(({ value, unit }) =>
    slopePercent({ value: Number(value), unit }),
  );
  return read.length === 0 ? undefined : Math.max(...read);
}

/** Level metres; undefined where the slope is needed and was not read. */
function widthFor({ rule, along }: BuffersAsked, slope: number | undefined): number | undefined {
  const grows = (rule.perPercent ?? 0) > 0;
  if (slope === undefined) return grows || along === 'slope' ? undefined : rule.base;
  const width = bufferWidth(rule, slope);
  return along === 'slope' ? levelWidth(width, { value: slope, unit: '%' }) : width;
}

type Placed = Readonly<{
  stem: Stem;
  at: Readonly<{ at: FeatureShape['points'][number]; standardError: number }>;
}>;

function judge(
  placed: readonly Placed[],
  { feature, shape, width }: Readonly<{ feature: Feature; shape: FeatureShape; width: number }>,
) {
  // A line is the middle of what it stands for; strips are measured from its edge.
  const half = shape.is === 'ring' ? 0 : (metresOf(feature.body?.width) ?? 0) / 2;
  return placed.map(({ stem, at }) => {
    const metres = Math.max(0, apart({ is: 'point', points: [at.at] }, shape) - half);
    return {
      stem: stem.id,
      label: stemLabel(stem),
      answer: inBuffer(metres, width, [at.standardError, shape.standardError]),
      metres,
      felled: stem.felling !== undefined,
      mark: stem.mark ?? null,
    };
  });
}
