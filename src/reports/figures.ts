// The figures of a report: each as words and tables, as a picture where one helps, and as data with its entries.
import { isNotEnough, type LengthUnit, lengthIn, type NotEnough, type System } from '../measure/index.ts';
import {
  type Answer,
  damageFigures,
  decayComparison,
  type Figures,
  type Folded,
  figuresJson,
  type Group,
  isDecay,
  type Names,
  regenerationFigures,
  type StandFigures,
  type StandingMethod,
  type Stem,
  sampleFigures,
  standFigures,
  stemLabel,
  stemLength,
  stumpFigures,
  valueFigures,
  volumeFigures,
  withUnit,
} from '../stand/index.ts';
import { aimsPart } from './aims.ts';
import type { BarChart, DotChart } from './charts/model.ts';
import type { FigurePart } from './model.ts';
import { sheetOf } from './sheets/index.ts';
import { head, type SheetTable, wordy } from './sheets/model.ts';
import { sunChart, sunOf } from './sun.ts';

type Asked = Readonly<{
  /** Whether the report is about the first of the groups alone. */
  only: boolean;
  /** By which rule standing volume is printed; without it none is, and it is said what to ask with. */
  volume?: StandingMethod | undefined;
  names: Names;
}>;

/** @param groups those that the report shows */
export function figureParts(
  folded: Folded,
  groups: readonly Group[],
  { only, volume, names }: Asked,
): FigurePart[] {
  const group = only ? groups[0]?.id : undefined;
  const scope = group === undefined ? {} : { group };
  const system = folded.stand.logbook?.body.units === 'metric' ? 'metric' : 'inch';
  const figures = standFigures(folded, { ...scope, system, by: 'class' });
  const chart = sizesChart(figures);
  return [
    { ...part(folded, { what: 'stand', figures }), ...(chart === undefined ? {} : { chart }) },
    ...(only ? [] : blockParts(folded, system)),
    ...groups
      .filter(({ id }) => examinedIn(folded, id).length > 0)
      .map((examined) => decayPart(folded, examined, system)),
    ...groups.flatMap((group) => sunPart(folded, group, system)),
    volume === undefined
      ? noVolume
      : part(folded, { what: 'volume', figures: volumeFigures(folded, { ...scope, method: volume }) }),
    ...(volume === undefined || folded.stand.prices.length === 0
      ? []
      : [
          part(folded, {
            what: 'value',
            figures: valueFigures(folded, { ...scope, method: volume, column: 'removed' }),
          }),
        ]),
    ...sampled(folded, groups, { only, system, volume, names }),
    ...(only ? [] : aimsPart(folded, names)),
  ];
}

/** Where there are several blocks: those with a stated tally each by itself, with figures per area. */
function blockParts(folded: Folded, system: System): FigurePart[] {
  const { blocks } = folded.stand;
  if (blocks.size < 2) return [];
  return [...blocks.values()]
    .filter(({ tallyScope }) => tallyScope !== undefined)
    .map(({ id, name }) => {
      const { sheet, data } = part(folded, {
        what: 'stand',
        figures: standFigures(folded, { system, by: 'class', block: id }),
      });
      return { sheet: { ...sheet, title: `Stand before and after: block ${name}` }, data };
    });
}

/** Damage, audited stumps and plots, where there is something of the kind in the log. */
function sampled(
  folded: Folded,
  groups: readonly Group[],
  { only, system, volume }: Asked & Readonly<{ system: System }>,
): FigurePart[] {
  const { stand } = folded;
  const parts: FigurePart[] = [];
  const group = only ? groups[0]?.id : undefined;
  if (!only) parts.push(part(folded, { what: 'damage', figures: damageFigures(folded) }));
  if (stand.stumpsAudited.length > 0)
    parts.push(
      part(folded, {
        what: 'stumps',
        figures: stumpFigures(folded, { system, ...(group === undefined ? {} : { group }) }),
      }),
    );
  if (!only && stand.plots.length > 0)
    parts.push(
      part(folded, {
        what: 'plots',
        figures: sampleFigures(folded, { system, ...(volume && { method: volume }) }),
      }),
    );
  for (const { id, label } of groups) {
    const figures = regenerationFigures(folded, { group: id, system });
    if (figures.visits.length > 0) parts.push(part(folded, { what: 'regeneration', label, figures }));
  }
  if (only) return parts;
  for (const { id, name } of stand.blocks.values()) {
    const figures = regenerationFigures(folded, { block: id, system });
    if (figures.visits.length > 0) parts.push(part(folded, { what: 'regeneration', label: name, figures }));
  }
  return parts;
}

function part(folded: Folded, figures: Figures): FigurePart {
  return { sheet: sheetOf(figures), data: figuresJson(figures, folded) };
}

const noVolume: FigurePart = {
  sheet: {
    title: 'Volume of standing trees',
    lead: [
      'Not enough data: no rule and no form class was chosen for this report (--rule, --form-class). A volume without its rule says nothing.',
    ],
    tables: [],
    remarks: [],
  },
  data: { what: 'volume', notEnough: 'not enough data: no rule and no form class was chosen' },
};

/** Diameter distribution: what is left at the bottom, what was removed and lost on it. */
function sizesChart({ rows, system }: StandFigures): BarChart | undefined {
  const sized = rows.filter(({ size }) => size !== null);
  if (sized.length === 0) return undefined;
  const unit = system === 'inch' ? 'in' : 'cm';
  const values = (column: 'left' | 'removed' | 'lost') =>
    sized.map(({ cells }) => numberIn(cells[column].stems));
  const most = sized.reduce((one, other) =>
    numberIn(other.cells.before.stems) > numberIn(one.cells.before.stems) ? other : one,
  );
  return {
    is: 'bars',
    title: 'Stems by DBH',
    description: `Bars of stems left, removed and lost otherwise for each size class; most stems, ${numberIn(most.cells.before.stems)} before, are in the class ${most.label}. The numbers stand in the table.`,
    across: `DBH, ${unit}: lower limit of the class`,
    up: 'Stems',
    categories: sized.map(({ size }) => String(size?.lower ?? '')),
    series: [
      { name: 'left', fill: 'solid', values: values('left') },
      { name: 'removed', fill: 'open', values: values('removed') },
      { name: 'lost otherwise', fill: 'hatched', values: values('lost') },
    ],
  };
}

function numberIn(answer: Answer | NotEnough): number {
  return isNotEnough(answer) ? 0 : answer.value;
}

function examinedIn({ stand }: Folded, group: string): Stem[] {
  return [...stand.stems.values()].filter((stem) => stem.decay !== undefined && stem.group === group);
}

function sunPart(folded: Folded, group: Group, system: System): FigurePart[] {
  const figures = sunOf(folded, group);
  if (figures === undefined) return [];
  const chart = sunChart(figures);
  return [{ ...part(folded, { what: 'sun', figures, system }), ...(chart === undefined ? {} : { chart }) }];
}

/** The comparison, and beside it the examined stumps of the group one by one: decay against DBH. */
function decayPart(folded: Folded, group: Group, system: System): FigurePart {
  const figures = decayComparison(folded, group.id, system);
  const { sheet, data } = part(folded, { what: 'decay', label: group.label, figures });
  const stems = examinedIn(folded, group.id);
  const units = system === 'metric' ? (['cm', 'm'] as const) : (['in', 'ft'] as const);
  const chart = decayChart(group.label, stems, units);
  return {
    sheet: { ...sheet, tables: [...sheet.tables, stumpTable(group.label, stems)] },
    data,
    ...(chart === undefined ? {} : { chart }),
  };
}

function stumpTable(label: string, stems: readonly Stem[]): SheetTable {
  return {
    caption: `Examined stumps of ${label}, as entered`,
    columns: [head('Stem'), wordy('DBH'), wordy('Found'), wordy('Up the butt')],
    rows: stems.map((stem) => [
      stemLabel(stem),
      stem.dbh === undefined ? 'not measured' : withUnit(stem.dbh),
      stem.decay?.body.found ?? '',
      stem.decay?.body.upTheButt === undefined
        ? stem.decay?.body.found === 'none'
          ? 'none'
          : 'not measured'
        : withUnit(stem.decay.body.upTheButt),
    ]),
  };
}

function decayChart(
  label: string,
  stems: readonly Stem[],
  [across, up]: readonly [across: LengthUnit, up: LengthUnit],
): DotChart | undefined {
  const points = stems.flatMap((stem) => {
    const dbh = stemLength(stem.dbh, 'in');
    if (dbh === undefined) return [];
    const { found, upTheButt } = stem.decay?.body ?? {};
    const length = stemLength(upTheButt, 'ft');
    const at = [lengthIn(dbh, 'in', across), lengthIn(length ?? 0, 'ft', up)] as const;
    const sound = found === undefined || !isDecay(found);
    return [{ at, sound, measured: length !== undefined }];
  });
  if (points.length < 3) return undefined;
  const those = (keep: (point: (typeof points)[number]) => boolean) =>
    points.filter(keep).map(({ at }) => at);
  const decayed = those(({ sound, measured }) => !sound && measured);
  return {
    is: 'dots',
    title: `Decay up the butt against DBH, ${label}`,
    description: `One mark for each of ${points.length} examined stumps with a DBH; ${decayed.length} with a measured length of decay. The numbers stand in the table.`,
    across: `DBH, ${across}`,
    up: `Decay up the butt, ${up}`,
    series: [
      { name: 'rot or hollow, length measured', mark: 'dot', points: decayed },
      { name: 'none, or stain alone', mark: 'ring', points: those(({ sound }) => sound) },
      {
        name: 'rot or hollow, length not measured',
        mark: 'cross',
        points: those(({ sound, measured }) => !sound && !measured),
      },
    ],
  };
}
