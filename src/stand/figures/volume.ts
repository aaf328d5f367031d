// Volume of standing trees, by species, product and grade, before, removed, lost and left; under one rule throughout.
import { speciesName } from '../../events/index.ts';
import {
  type FormFactor,
  fitHeightCurve,
  formFactorVolume,
  type HeightCurve,
  heightOf,
  honerVolume,
  isNotEnough,
  type NotEnough,
  notEnough,
  type StandingRule,
  solid,
  solidIn,
  standingBoardFeet,
  sumVolumes,
  type Volume,
  volume,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { counted, stemLabel } from '../labels.ts';
import type { Stand, Stem } from '../state.ts';
import { type CountAsked, type CountedStem, countStems } from './counted.ts';
import { honerNames } from './honer.ts';
import { lengthOf } from './length.ts';
import type { ColumnName } from './table.ts';

/** How a standing tree is turned into a volume. Nothing of it is taken for granted: it is asked for. */
export type StandingMethod =
  | Readonly<{ rule: StandingRule; formClass: number }>
  | Readonly<{ rule: 'cubic-feet' | 'cubic-metres'; form: FormFactor | typeof honer }>;

/** Honer's equation by the species of each stem, in place of one form for all. */
export const honer = 'honer';

export type VolumeAsked = CountAsked & Readonly<{ method: StandingMethod }>;

/** A volume of several stems: of as many as it could be computed for, and which could not. */
export type VolumeSum = Readonly<{
  /** The whole; missing when it could not be computed for one of the stems. */
  volume: Volume | NotEnough;
  /** What could be computed, and for how many of how many stems. */
  computed: Volume | null;
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
  const heights = 'form' in method ? heightCurve(folded.stand) : null;
  const stems = countStems(folded, asked).map((counted) => ({
    counted,
    volume: volumeOf(counted, method, heights),
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

/** Fitted to every stem of the logbook whose height and DBH were measured. */
function heightCurve({ stems }: Stand): HeightCurve | NotEnough {
  const measured = [...stems.values()].flatMap((stem) => {
    const height = lengthOf(stem.height, 'ft');
    const dbh = lengthOf(stem.dbh, 'in');
    return height === undefined || dbh === undefined ? [] : [{ dbh, height }];
  });
  return fitHeightCurve(measured);
}

function volumeOf(
  { stem, dbh }: CountedStem,
  method: StandingMethod,
  heights: HeightCurve | NotEnough | null,
): Volume | NotEnough {
  if (dbh === undefined) return notEnough('no DBH');
  if ('form' in method) {
    const height = heightOf(
      { dbh: dbh.inches, height: lengthOf(stem.height, 'ft') ?? null },
      heights ?? notEnough('no height'),
    );
    if (isNotEnough(height)) return height;
    const tree = { dbh: dbh.inches, height: height.value };
    const feet = method.form === honer ? honerOf(stem, tree) : formFactorVolume(tree, method.form);
    return method.rule === 'cubic-feet' || isNotEnough(feet) ? feet : inCubicMetres(feet);
  }
  const merchantable = lengthOf(stem.merchantableHeight, 'ft');
  if (merchantable === undefined) return notEnough('no merchantable height');
  const tree = { dbh: dbh.inches, logs: merchantable / 16, formClass: method.formClass };
  return standingBoardFeet(tree, method.rule);
}

function honerOf({ species }: Stem, tree: Parameters<typeof honerVolume>[1]): Volume | NotEnough {
  if (species === undefined) return notEnough("no species, which Honer's equation goes by");
  const name = species.code === undefined ? undefined : honerNames[species.code];
  return name === undefined
    ? notEnough(`no coefficients of Honer's equation for ${speciesName(species)}`)
    : honerVolume(name, tree);
}

function inCubicMetres({ value, method, source }: Volume): Volume {
  return volume('cubic-metres', solidIn(solid(value, 'ft3'), 'm3').value, { method, source });
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
  const volumes = stems.flatMap(({ volume }) => (isNotEnough(volume) ? [] : [volume]));
  const sum = sumVolumes(volumes);
  const computed = isNotEnough(sum) ? null : sum;
  const missing = stems.length - volumes.length;
  return {
    volume:
      computed === null || missing > 0
        ? notEnough(
            stems.length === 0
              ? 'there is no stem'
              : `${missing} of ${counted(stems.length, 'stem')} ${missing === 1 ? 'has' : 'have'} no volume`,
          )
        : computed,
    computed,
    computedStems: volumes.length,
    stems: stems.length,
    restsOn: stems.flatMap(({ counted: { stem } }) => stem.entries),
  };
}
