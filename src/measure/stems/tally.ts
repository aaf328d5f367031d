/** A list of stems as the measures of this folder take it, and the land it stands on. */
import { basalArea } from '../basal-area.ts';
import type { Figure, NotEnough } from '../figure.ts';
import { lacking, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import type { LengthUnit } from '../units.ts';
import { areaIn, lengthIn } from '../units.ts';

/**
 * One stem of a list, or several alike. `dbh` is in the unit of the list and null where it was never measured;
 * `count` is how many stems it stands for, 1 when left out (a sampled stem stands for its expansion factor).
 */
export type Tallied = Readonly<{ dbh: number | null; species?: string | null; count?: number }>;

/** Stems with the unit of their DBH. */
export type Tally = Readonly<{ stems: readonly Tallied[]; unit: LengthUnit }>;

/** The land that a complete tally covers. */
export type Land = Readonly<{ area: number; unit: 'ac' | 'ha' }>;

/** In which units figures are wanted: inches, square feet, acres; or centimetres, square metres, hectares. */
export type System = 'inch' | 'metric';

/** A diameter with its unit. */
export type Diameter = Readonly<{ value: number; unit: LengthUnit }>;

/** How many stems a list row stands for. */
export function countOf({ count }: Tallied): number {
  return count ?? 1;
}

/** How many stems the list stands for. */
export function stemCount({ stems }: Tally): number {
  return stems.reduce((sum, stem) => sum + countOf(stem), 0);
}

/** The stems of at least the given DBH, compared unrounded; stems without a DBH are left out. */
export function fromFloor({ stems, unit }: Tally, floor: Diameter): Tally {
  const least = lengthIn(floor.value, floor.unit, unit);
  return { stems: stems.filter(({ dbh }) => dbh !== null && dbh >= least), unit };
}

/** The stems that have a DBH. What is computed from them speaks for these only. */
export function withDbh({ stems, unit }: Tally): Tally {
  return { stems: stems.filter(({ dbh }) => dbh !== null), unit };
}

/** Why basal area and diameters of the list cannot be computed; undefined when they can. */
export function whyNoDiameters(tally: Tally): NotEnough | undefined {
  const without = tally.stems.reduce((sum, stem) => sum + (stem.dbh === null ? countOf(stem) : 0), 0);
  if (without > 0) return notEnough(lacking(without, stemCount(tally), 'stem', 'DBH'));
  for (const stem of tally.stems) {
    const wrong = outOfRange(
      { what: 'DBH', value: stem.dbh ?? Number.NaN, unit: tally.unit, least: 0 },
      { what: 'number of stems', value: countOf(stem), unit: '', least: 0 },
    );
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

/** Sum of the section areas at breast height, in ft² or m². Stems without a DBH add nothing: see whyNoDiameters. */
export function sumOfBasalAreas({ stems, unit }: Tally, system: System): number {
  const one = basalArea(1, unit, system === 'inch' ? 'ft2' : 'm2');
  return stems.reduce((sum, stem) => sum + countOf(stem) * one * (stem.dbh ?? 0) ** 2, 0);
}

/** Sum of the section areas at breast height as a figure. Source: definition, area of a circle. */
export function totalBasalArea(tally: Tally, system: System): Figure | NotEnough {
  return (
    whyNoDiameters(tally) ?? {
      value: sumOfBasalAreas(tally, system),
      unit: system === 'inch' ? 'ft2' : 'm2',
      method: 'sum of π/4 · DBH²',
      source: 'definition',
    }
  );
}

/** The land in acres or hectares, above 0, or what is missing. */
export function landIn(land: Land | undefined, system: System): number | NotEnough {
  if (land === undefined) return notEnough('the area that the stems stand on');
  if (!(Number.isFinite(land.area) && land.area > 0)) {
    return notEnough(`an area above 0; ${land.area} ${land.unit} was given`);
  }
  return areaIn(land.area, land.unit, system === 'inch' ? 'ac' : 'ha');
}
