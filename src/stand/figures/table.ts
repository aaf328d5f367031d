// The stand before, removed, lost otherwise and left: in rows by size class, species or group, and in all.
import { speciesName } from '../../events/index.ts';
import {
  areaIn,
  isNotEnough,
  type Land,
  lengthIn,
  type MeasuresAsked,
  type NotEnough,
  notEnough,
  type SizeClass,
  type StandMeasures,
  type System,
  speciesMix,
  standColumns,
  type Tally,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { breastHeightWords, counted, stemLabel } from '../labels.ts';
import type { Stand } from '../state.ts';
import { blockOfStem } from '../stem-facts.ts';
import { type CountAsked, type CountedStem, countStems, diameterUnit } from './counted.ts';
import { asArea, asLength } from './length.ts';
import { type RowsAsked, rowsOf } from './row-keys.ts';
import { type SampledStand, sampledStand } from './sampled-stand.ts';
import { type Answer, entriesOf, type TracedFigure, traced } from './traced.ts';

export type TableAsked = CountAsked & RowsAsked;

export const columnNames = ['before', 'removed', 'lost', 'left'] as const;
export type ColumnName = (typeof columnNames)[number];
export type TableCell = Readonly<Record<keyof StandMeasures, Answer>>;
export type TableRow = Readonly<{
  label: string;
  /** Limits of the size class, the lower one included; null for what has no class or where rows are none. */
  size: SizeClass | null;
  cells: Readonly<Record<ColumnName, TableCell>>;
}>;

/** The area of a block, with where it comes from. */
export type TracedLand = Land & Readonly<Pick<TracedFigure, 'method' | 'source' | 'restsOn'>>;

/** What part of the stems and of their basal area a species has, 0 to 1. Null: species not recorded. */
export type MixRow = Readonly<{
  species: string | null;
  shareOfStems: TracedFigure;
  shareOfBasalArea: TracedFigure;
}>;

export type StandFigures = Readonly<{
  by: TableAsked['by'];
  system: System;
  /** Smallest DBH that was counted, as it was written. */
  floor: string | null;
  /** At which height the DBH was measured, as the logbook says. */
  breastHeight: string | null;
  /** The land that a complete tally covers; what is missing to figures per acre or hectare otherwise. */
  land: TracedLand | NotEnough;
  rows: readonly TableRow[];
  total: TableRow;
  /** A block whose tally is stated to be a sample: its stand from the plots; null for everything else. */
  sampled: SampledStand | NotEnough | null;
  /** With rows by species: their shares of stems and basal area before and now. */
  mix: Readonly<Record<'before' | 'left', readonly MixRow[] | NotEnough>> | null;
  /** What must be read with the figures. */
  remarks: readonly string[];
}>;

/** The table of a block, a group or everything in the log, as far as the log tells. */
export function standFigures(folded: Folded, typed: TableAsked): StandFigures {
  const { stand } = folded;
  const asked = withOnlyBlock(stand, typed);
  const scope = asked.block === undefined ? undefined : stand.blocks.get(asked.block)?.tallyScope?.body;
  const floor = asked.floor ?? asLength(scope?.floor);
  const stems = countStems(folded, { ...asked, ...(floor ? { floor } : {}) });
  const land = landOf(stand, asked);
  const measures: MeasuresAsked = {
    system: asked.system,
    reference: asked.system === 'inch' ? '10 in' : '25.4 cm',
    ...('notEnough' in land ? {} : { land }),
  };
  return {
    by: asked.by,
    system: asked.system,
    floor: floor === undefined ? null : `${floor.value} ${floor.unit}`,
    breastHeight: (stand.logbook && breastHeightWords(stand.logbook.body)) ?? null,
    land,
    rows: rowsOf(
      stems,
      ({ stem: { species, group }, dbh }) => ({ species, group, inches: dbh?.inches }),
      stand,
      asked,
    ).map(({ label, size, of }) => ({ label, size, cells: cellsOf(of, measures) })),
    total: { label: 'All', size: null, cells: cellsOf(stems, measures) },
    sampled: sampledOf(stand, asked, floor),
    mix: asked.by === 'species' ? mixOf(stems, asked.system) : null,
    remarks: remarksOn(stems, stand, asked),
  };
}

/** Where the logbook has one block and every stem stands in it, all stems are those of the block. */
function withOnlyBlock(stand: Stand, asked: TableAsked): TableAsked {
  const [block, ...others] = stand.blocks.keys();
  if (asked.block !== undefined || asked.group !== undefined || block === undefined || others.length > 0)
    return asked;
  for (const stem of stand.stems.values()) if (blockOfStem(stem, stand) !== block) return asked;
  return { ...asked, block };
}

function sampledOf(stand: Stand, asked: TableAsked, floor: CountAsked['floor']): StandFigures['sampled'] {
  const { block, group, zone } = asked;
  if (block === undefined || group !== undefined || zone !== undefined) return null;
  if (stand.blocks.get(block)?.tallyScope?.body.coverage !== 'sampled') return null;
  return sampledStand(stand, { ...asked, block, ...(floor ? { floor } : {}) });
}

/** Per-area figures of stems need a block whose tally is stated to be complete, and its area. A group is no census. */
function landOf(stand: Stand, { block: id, group, zone, system }: TableAsked): TracedLand | NotEnough {
  if (id === undefined || group !== undefined || zone !== undefined)
    return notEnough('figures per area are given for a whole block only.');
  const block = stand.blocks.get(id);
  const scope = block?.tallyScope?.body;
  if (scope?.coverage === 'sampled')
    return notEnough(
      'the tally of the block is stated to be a sample: what it says per area comes from the plots.',
    );
  if (scope?.coverage !== 'complete')
    return notEnough('no complete tally of the block is stated ("tally scope set").');
  const area = asArea(scope.area ?? block?.area);
  const unit = system === 'inch' ? 'ac' : 'ha';
  if (area === undefined) return notEnough('the area of the block is not recorded.');
  const stated = scope.area !== undefined;
  return {
    area: areaIn(area.value, area.unit, unit),
    unit,
    method: stated ? 'area as the tally scope states it' : 'area as recorded with the block',
    source: 'the logbook',
    restsOn: stated ? [block?.tallyScope?.entry ?? ''] : (block?.entries ?? []),
  };
}

function cellsOf(stems: readonly CountedStem[], asked: MeasuresAsked): TableRow['cells'] {
  const of = (column: CountedStem['column']) => stems.filter((counted) => counted.column === column);
  const lists = { before: stems, removed: of('removed'), lost: of('lost'), left: of('left') };
  const tally = (name: ColumnName) => tallyOf(lists[name], asked.system);
  const columns = standColumns(
    { before: tally('before'), removed: tally('removed'), lost: tally('lost'), left: tally('left') },
    asked,
  );
  const cell = (name: ColumnName) => tracedMeasures(columns[name], lists[name]);
  return { before: cell('before'), removed: cell('removed'), lost: cell('lost'), left: cell('left') };
}

function mixOf(stems: readonly CountedStem[], system: System): NonNullable<StandFigures['mix']> {
  const of = (those: readonly CountedStem[]) => {
    const shares = speciesMix(tallyOf(those, system), system);
    if (isNotEnough(shares)) return shares;
    const restsOn = entriesOf(those.map(({ stem }) => stem));
    const share = (value: number, method: string): TracedFigure => ({
      value,
      unit: 'share',
      method,
      source: 'definition',
      get restsOn() {
        return restsOn();
      },
    });
    return shares.map(({ species, shareOfStems, shareOfBasalArea }) => ({
      species,
      shareOfStems: share(shareOfStems, 'stems of the species by all stems'),
      shareOfBasalArea: share(shareOfBasalArea, 'basal area of the species by that of all stems'),
    }));
  };
  return { before: of(stems), left: of(stems.filter(({ column }) => column === 'left')) };
}

function tracedMeasures(measures: StandMeasures, stems: readonly CountedStem[]): TableCell {
  const restsOn = entriesOf(stems.map(({ stem }) => stem));
  return Object.fromEntries(
    Object.entries(measures).map(([name, figure]) => [name, traced(figure, restsOn)]),
  ) as TableCell;
}

function tallyOf(stems: readonly CountedStem[], system: System): Tally {
  const unit = diameterUnit(system);
  return {
    unit,
    stems: stems.map(({ stem: { species }, dbh }) => ({
      dbh: dbh === undefined ? null : lengthIn(dbh.inches, 'in', unit),
      species: species === undefined ? null : speciesName(species),
    })),
  };
}

function remarksOn(stems: readonly CountedStem[], stand: Stand, asked: TableAsked): string[] {
  const unmeasured = stems.filter(({ dbh }) => dbh === undefined);
  const fromStump = stems.filter(({ dbh }) => dbh?.from === 'stump');
  const list = (those: readonly CountedStem[]) => those.map(({ stem }) => stemLabel(stem)).join(', ');
  const block = asked.block === undefined ? undefined : stand.blocks.get(asked.block);
  const coverage = block?.tallyScope?.body.coverage;
  const { zone } = asked;
  const unplaced =
    zone === undefined
      ? 0
      : [...stand.stems.values()].filter((stem) => zone.holds(stem) === undefined).length;
  return [
    coverage === 'complete' && asked.group === undefined && zone === undefined
      ? `The tally of ${block?.name ?? 'the block'} is stated to be complete.`
      : 'These are the stems in the log, and no census: nothing is said about other stems.',
    ...(zone === undefined ? [] : [`Only stems ${zone.words}.`]),
    ...(unplaced === 0
      ? []
      : [
          `${counted(unplaced, 'stem')} without a known place: whether in or out cannot be told, and left out.`,
        ]),
    ...(unmeasured.length === 0
      ? []
      : [`${counted(unmeasured.length, 'stem')} without a DBH: ${shortened(list(unmeasured))}.`]),
    ...(fromStump.length === 0
      ? []
      : [
          `DBH from the stump (general hardwood coefficients) for ${counted(fromStump.length, 'stem')}: ${shortened(list(fromStump))}.`,
        ]),
  ];
}

function shortened(text: string): string {
  return text.length <= 120 ? text : `${text.slice(0, 117)}…`;
}
