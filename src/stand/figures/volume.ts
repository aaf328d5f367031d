// Volume of standing trees, by species, product and grade, before, removed, lost and left; under one rule throughout.
import { speciesName } from '../../events/index.ts';
import {
  type HeightCurve,
  isNotEnough,
  lacking,
  type NotEnough,
  notEnough,
  sumVolumes,
  type Volume,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { stemLabel } from '../labels.ts';
import { type CountAsked, type CountedStem, countStems } from './counted.ts';
import { heightsFor, type StandingMethod, standingVolume } from './standing-volume.ts';
import type { ColumnName } from './table.ts';
import type { TracedFigure } from './traced.ts';

export type VolumeAsked = CountAsked & Readonly<{ method: StandingMethod }>;

/** A volume with its rule and the entries that it rests on. */
export type TracedVolume = TracedFigure & Volume;

/** A volume of several stems: of as many as it could be computed for, and which could not. */
export type VolumeSum = Readonly<{
  /** The whole; missing when it could not be computed for one of the stems. */
  volume: TracedVolume | NotEnough;
  /** What could be computed, and for how many of how many stems. */
  computed: TracedVolume | null;
  computedStems: number;
  stems: number;
  restsOn: readonly string[];
}>;

export type VolumeRow = Readonly<{
  species: string;
  /** As it was recorded for the stems; null where it was not. */
  product: string | null;
  grade: string | null;
  columns: Readonly<Record<ColumnName, VolumeSum>>;
}>;

export type VolumeFigures = Readonly<{
  rule: StandingMethod['rule'];
  /** Where heights come from when they were not measured; only the cubic method needs heights. */
  heights: HeightCurve | NotEnough | null;
  rows: readonly VolumeRow[];
  total: VolumeRow['columns'];
  /** Stems for which there is no volume, each with why. */
  without: readonly Readonly<{ stem: string; label: string; why: string }>[];
  remarks: readonly string[];
}>;

type WithVolume = Readonly<{ counted: CountedStem; volume: Volume | NotEnough }>;

/** Gross volume: defects and decay are not taken off. */
export function volumeFigures(folded: Folded, { method, ...asked }: VolumeAsked): VolumeFigures {
  const heights = heightsFor(method, folded.stand);
  const stems = countStems(folded, asked).map((counted) => ({
    counted,
    volume: standingVolume({ ...counted.stem, dbh: counted.dbh?.inches }, method, heights),
  }));
  const rows = new Map<
    string,
    { head: Pick<VolumeRow, 'species' | 'product' | 'grade'>; stems: WithVolume[] }
  >();
  for (const stem of stems) {
    const { species, product, grade } = stem.counted.stem;
    const head = {
      species: species === undefined ? 'species not recorded' : speciesName(species),
      product: product ?? null,
      grade: grade ?? null,
    };
    const key = [head.species, head.product ?? '', head.grade ?? ''].join('\n');
    const row = rows.get(key);
    if (row) row.stems.push(stem);
    else rows.set(key, { head, stems: [stem] });
  }
  return {
    rule: method.rule,
    heights,
    rows: [...rows.entries()]
      .sort(([one], [other]) => (one < other ? -1 : 1))
      .map(([, row]) => ({ ...row.head, columns: columnsOf(row.stems) })),
    total: columnsOf(stems),
    without: stems.flatMap(({ counted: { stem }, volume }) =>
      isNotEnough(volume)
        ? [{ stem: stem.id, label: stemLabel(stem), why: volume.notEnough.replace(/^not enough data: /, '') }]
        : [],
    ),
    remarks: [
      'Gross: decay and other defects are not taken off.',
      'An estimate of standing trees; only the scale of logs says what was in them.',
    ],
  };
}

function columnsOf(stems: readonly WithVolume[]): VolumeRow['columns'] {
  const of = (column: CountedStem['column']) => stems.filter(({ counted }) => counted.column === column);
  return {
    before: sumOf(stems),
    removed: sumOf(of('removed')),
    lost: sumOf(of('lost')),
    left: sumOf(of('left')),
  };
}

function sumOf(stems: readonly WithVolume[]): VolumeSum {
  const known = stems.flatMap(({ volume, counted: { stem } }) =>
    isNotEnough(volume) ? [] : [{ volume, entries: stem.entries }],
  );
  const volumes = known.map(({ volume }) => volume);
  const sum = sumVolumes(volumes);
  const computed = isNotEnough(sum) ? null : { ...sum, restsOn: known.flatMap(({ entries }) => entries) };
  const missing = stems.length - volumes.length;
  return {
    volume:
      computed === null || missing > 0
        ? notEnough(
            stems.length === 0 ? 'there is no stem' : lacking(missing, stems.length, 'stem', 'volume'),
          )
        : computed,
    computed,
    computedStems: volumes.length,
    stems: stems.length,
    restsOn: stems.flatMap(({ counted: { stem } }) => stem.entries),
  };
}
