// The stand before, removed, lost otherwise and left.
import { isNotEnough } from '../../measure/index.ts';
import {
  columnNames,
  counted,
  type SampledRow,
  type StandFigures,
  type TableCell,
} from '../../stand/index.ts';
import { belowZero, daysOf } from './interval.ts';
import {
  head,
  missingSentence,
  missingWords,
  number,
  rounded,
  type Sheet,
  type SheetTable,
  shown,
  unitWords,
} from './model.ts';
import { estimateCells, estimateColumns } from './samples.ts';

export const columnTitles = {
  before: 'before',
  removed: 'removed',
  lost: 'lost otherwise',
  left: 'left',
} as const;

const firstColumn = { class: 'DBH', species: 'Species', group: 'Group' } as const;

export function standSheet(figures: StandFigures): Sheet {
  const { floor, breastHeight, remarks } = figures;
  const computed = densities(figures);
  return {
    title: 'Stand before and after',
    lead: [
      `Live stems ${floor === null ? 'of any DBH' : `from ${floor} DBH`}.`,
      breastHeight === null ? 'Breast height is not recorded.' : `DBH was measured at ${breastHeight}.`,
      'Removed is what was felled, also what hung up; lost otherwise is what was found dead or down.',
    ],
    tables: [
      ...sampledTables(figures),
      additive(figures),
      ...(computed.rows.length === 0 ? [] : [computed]),
      ...mixTable(figures),
    ],
    remarks: [...missing(figures), ...sampledRemarks(figures), ...remarks],
  };
}

/** What the plots of a sampled block say, with its error; the stems in the log stand in the tables below. */
function sampledTables({ by, sampled }: StandFigures): SheetTable[] {
  if (sampled === null || isNotEnough(sampled)) return [];
  const rows = [...sampled.rows, sampled.total];
  const of = by === 'class' ? 'size class' : by;
  const table = (what: string, cells: (row: SampledRow) => string[]): SheetTable => ({
    caption: `${what} by ${of}, from ${counted(sampled.plots, 'plot')} tallied ${daysOf(sampled)}`,
    columns: [head(firstColumn[by]), ...estimateColumns],
    rows: rows.map((row) => [row.label, ...cells(row)]),
  });
  return [
    table('Live stems', ({ stems }) => estimateCells(stems, 1)),
    table('Live basal area', ({ basalArea }) => estimateCells(basalArea, 1)),
  ];
}

function sampledRemarks({ sampled }: StandFigures): string[] {
  if (sampled === null) return [];
  if (isNotEnough(sampled)) return [missingSentence(sampled)];
  const { rows, total, remarks } = sampled;
  const missing = [total.stems, total.basalArea].filter((answer) => isNotEnough(answer));
  return [
    ...new Set(missing.map(missingSentence)),
    ...remarks,
    ...belowZero([...rows, total].flatMap(({ stems, basalArea }) => [stems, basalArea])),
  ];
}

/** Stems and basal area add up: before = removed + lost otherwise + left. */
function additive({ by, system, rows, total }: StandFigures): SheetTable {
  const area = system === 'inch' ? 'ft²' : 'm²';
  return {
    caption: `Stems and basal area by ${by === 'class' ? 'size class' : by}`,
    columns: [
      head(firstColumn[by]),
      ...columnNames.flatMap((name) => [
        number(`Stems ${columnTitles[name]}`),
        number(`${area} ${columnTitles[name]}`),
      ]),
    ],
    rows: [...rows, total].map(({ label, cells }) => [
      label,
      ...columnNames.flatMap((name) => [shown(cells[name].stems, 0), shown(cells[name].basalArea, 2)]),
    ]),
  };
}

/** What does not add up is computed afresh for each column. */
const computed: readonly (readonly [keyof TableCell, string])[] = [
  ['quadraticMeanDiameter', 'Quadratic mean DBH'],
  ['stemsPerArea', 'Stems'],
  ['basalAreaPerArea', 'Basal area'],
  ['sdiByQmd', 'Stand density index by quadratic mean DBH'],
  ['sdiBySummation', 'Stand density index by summation'],
  ['curtisRelativeDensity', 'Relative density (basal area / √QMD)'],
];

function densities({ total, system }: StandFigures): SheetTable {
  const reference = system === 'inch' ? '10 in' : '25.4 cm';
  const rows = computed.flatMap(([name, label]) => {
    const known = columnNames.map((column) => total.cells[column][name]).find((one) => !isNotEnough(one));
    if (known === undefined || isNotEnough(known)) return [];
    const cells = columnNames.map((column) => shown(total.cells[column][name], 1));
    return [[`${label}, ${unitWords(known.unit)}`, ...cells] as const];
  });
  return {
    // Without land there is no density index, and nothing to name a reference diameter for.
    caption: rows.some(([name]) => name.startsWith('Stand density index'))
      ? `All stems; density index with reference diameter ${reference}`
      : 'All stems',
    columns: [head('Measure'), ...columnNames.map((name) => number(columnTitles[name]))],
    rows,
  };
}

function missing({ total, land, sampled }: StandFigures): string[] {
  // Where plots speak for the land, nothing is missing that the stems would have to say.
  const found = new Set<string>(isNotEnough(land) && sampled === null ? [missingSentence(land)] : []);
  for (const column of columnNames) {
    const { basalArea } = total.cells[column];
    if (isNotEnough(basalArea)) found.add(`Basal area ${columnTitles[column]}: ${missingWords(basalArea)}.`);
  }
  return [...found];
}

/** Shares of stems and of basal area, which often differ widely; where a DBH is missing the mix is not told. */
function mixTable({ mix }: StandFigures): SheetTable[] {
  if (mix === null || isNotEnough(mix.before) || isNotEnough(mix.left)) return [];
  const left = new Map(mix.left.map((share) => [share.species, share]));
  const percent = (share: { value: number } | undefined) => rounded(100 * (share?.value ?? 0), 0);
  return [
    {
      caption: 'Species mix, %',
      columns: [
        head('Species'),
        number('of stems before'),
        number('of basal area before'),
        number('of stems left'),
        number('of basal area left'),
      ],
      rows: mix.before.map(({ species, shareOfStems, shareOfBasalArea }) => [
        species ?? 'species not recorded',
        percent(shareOfStems),
        percent(shareOfBasalArea),
        percent(left.get(species)?.shareOfStems),
        percent(left.get(species)?.shareOfBasalArea),
      ]),
    },
  ];
}
