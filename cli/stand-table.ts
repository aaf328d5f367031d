// gapledger stand --by: the stand before, removed, lost otherwise and left, in rows.
import { isNotEnough } from '../src/measure/index.ts';
import { readTableAsked } from '../src/record/index.ts';
import {
  type Answer,
  columnNames,
  type Folded,
  figuresJson,
  type StandFigures,
  standFigures,
  type TableCell,
} from '../src/stand/index.ts';
import { exitCodes, Failure, problemSentence, say, sayJson, table } from './terminal/index.ts';

export type TableFlags = Readonly<{
  by: string;
  block?: string;
  group?: string;
  since?: string;
  floor?: string;
  units?: string;
  json?: boolean;
}>;

const columnTitles = { before: 'before', removed: 'removed', lost: 'lost otherwise', left: 'left' } as const;

/** Prints the table that the flags ask for, for people or as JSON. */
export function sayTable(folded: Folded, flags: TableFlags): void {
  const reading = readTableAsked(folded.stand, flags, new Date().toISOString());
  if (!reading.ok) throw new Failure(exitCodes.badInput, problemSentence(reading, `--${reading.field}`));
  const figures = standFigures(folded, reading.asked);
  if (flags.json) {
    sayJson(figuresJson(figures, folded));
    return;
  }
  say(`Live stems ${figures.floor === null ? 'of any DBH' : `from ${figures.floor} DBH`}.`);
  say(
    figures.breastHeight === null
      ? 'Breast height is not recorded.'
      : `DBH was measured at ${figures.breastHeight}.`,
  );
  say('');
  say(rowsOf(figures));
  say('');
  say(densities(figures));
  const missing = missingWords(figures);
  if (missing.length > 0) say('');
  for (const sentence of [...missing, ...figures.remarks]) say(sentence);
}

/** Stems and basal area add up: before = removed + lost otherwise + left. */
function rowsOf({ by, system, rows, total }: StandFigures): string {
  const area = system === 'inch' ? 'ft²' : 'm²';
  const titles = columnNames.flatMap((name) => [
    { title: `Stems ${columnTitles[name]}`, right: true as const },
    { title: area, right: true as const },
  ]);
  return table(
    [{ title: by === 'class' ? 'DBH' : by === 'species' ? 'Species' : 'Group' }, ...titles],
    [...rows, total].map(({ label, cells }) => [
      label,
      ...columnNames.flatMap((name) => [shown(cells[name].stems, 0), shown(cells[name].basalArea, 2)]),
    ]),
  );
}

/** What does not add up is computed afresh for each column. */
const computed: readonly (readonly [keyof TableCell, string, number])[] = [
  ['quadraticMeanDiameter', 'Quadratic mean DBH', 1],
  ['stemsPerArea', 'Stems', 1],
  ['basalAreaPerArea', 'Basal area', 1],
  ['sdiByQmd', 'Stand density index by QMD', 1],
  ['sdiBySummation', 'Stand density index, summed', 1],
  ['curtisRelativeDensity', 'Relative density', 1],
];

function densities({ total }: StandFigures): string {
  const rows = computed.flatMap(([name, label, digits]) => {
    const known = columnNames.map((column) => total.cells[column][name]).find((one) => !isNotEnough(one));
    if (known === undefined || isNotEnough(known)) return [];
    return [
      [`${label}, ${known.unit}`, ...columnNames.map((column) => shown(total.cells[column][name], digits))],
    ];
  });
  const titles = columnNames.map((name) => ({ title: columnTitles[name], right: true as const }));
  return rows.length === 0 ? '' : table([{ title: 'All' }, ...titles], rows);
}

function missingWords({ total, land }: StandFigures): string[] {
  const found = new Set<string>(isNotEnough(land) ? [land.notEnough] : []);
  for (const column of columnNames) {
    const { basalArea } = total.cells[column];
    if (isNotEnough(basalArea)) found.add(`Basal area ${columnTitles[column]}: ${basalArea.notEnough}`);
  }
  return [...found];
}

function shown(answer: Answer, digits: number): string {
  return isNotEnough(answer)
    ? '–'
    : answer.value.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits });
}
