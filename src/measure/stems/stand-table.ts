/** The stand table: stems and basal area by size class and species, on the whole or per area of land. */
import { basalArea } from '../basal-area.ts';
import { isNotEnough, type NotEnough } from '../figure.ts';
import { type SizeClass, type SizeClasses, sizeClass } from './classes.ts';
import { countOf, type Land, landIn, type System, type Tally } from './tally.ts';

/** One cell of the table. `size` is null for stems without a DBH or under the lowest class; `basalArea` then too. */
export type StandTableRow = Readonly<{
  size: SizeClass | null;
  species: string | null;
  stems: number;
  basalArea: number | null;
}>;

/** Rows by class from small to large, in each by species; and the units of their two columns. */
export type StandTable = Readonly<{
  rows: readonly StandTableRow[];
  stemsUnit: 'stems' | 'stems/ac' | 'stems/ha';
  basalAreaUnit: 'ft2' | 'm2' | 'ft2/ac' | 'm2/ha';
}>;

/** Classes, units, and the land: with it figures are per acre or hectare, with `null` they are totals. */
export type StandTableAsked = Readonly<{ classes: SizeClasses; system: System; land: Land | null }>;

/**
 * Stems and basal area by size class × species. Every stem of the tally is in exactly one row, so the rows add up to
 * the tally: stems under the lowest class and stems without a DBH have a row of their own per species, where a
 * basal area is null because some of its stems have no DBH.
 */
export function standTable(tally: Tally, { classes, system, land }: StandTableAsked): StandTable | NotEnough {
  const area = land === null ? 1 : landIn(land, system);
  if (isNotEnough(area)) return area;
  const one = basalArea(1, tally.unit, system === 'inch' ? 'ft2' : 'm2');
  const cells = new Map<
    string,
    { size: SizeClass | null; species: string | null; stems: number; basalArea: number | null }
  >();
  for (const stem of tally.stems) {
    const size =
      (stem.dbh === null ? undefined : sizeClass({ value: stem.dbh, unit: tally.unit }, classes)) ?? null;
    const species = stem.species ?? null;
    const key = `${size?.lower ?? ''}\n${species ?? ''}`;
    const cell = cells.get(key) ?? { size, species, stems: 0, basalArea: 0 };
    const count = countOf(stem) / area;
    cell.stems += count;
    cell.basalArea =
      cell.basalArea === null || stem.dbh === null ? null : cell.basalArea + count * one * stem.dbh ** 2;
    cells.set(key, cell);
  }
  return { rows: [...cells.values()].sort(bySizeThenSpecies), ...unitsOf(system, land) };
}

function bySizeThenSpecies(one: StandTableRow, other: StandTableRow): number {
  const sizes =
    (one.size?.lower ?? Number.NEGATIVE_INFINITY) - (other.size?.lower ?? Number.NEGATIVE_INFINITY);
  if (sizes !== 0 && !Number.isNaN(sizes)) return sizes;
  const [left, right] = [one.species ?? '', other.species ?? ''];
  return left < right ? -1 : left > right ? 1 : 0;
}

function unitsOf(system: System, land: Land | null): Pick<StandTable, 'stemsUnit' | 'basalAreaUnit'> {
  if (land === null) return { stemsUnit: 'stems', basalAreaUnit: system === 'inch' ? 'ft2' : 'm2' };
  return system === 'inch'
    ? { stemsUnit: 'stems/ac', basalAreaUnit: 'ft2/ac' }
    : { stemsUnit: 'stems/ha', basalAreaUnit: 'm2/ha' };
}
