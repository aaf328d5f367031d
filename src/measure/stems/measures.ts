/** What a forester asks of a list of stems, all at once, and the same for the four columns of a cut. */
import type { Figure, NotEnough } from '../figure.ts';
import { isNotEnough } from '../figure.ts';
import {
  curtisRelativeDensity,
  quadraticMeanDiameter,
  type ReferenceDiameter,
  sdiByQmd,
  sdiBySummation,
} from './density.ts';
import { type Land, landIn, type System, stemCount, type Tally, totalBasalArea } from './tally.ts';

/** The measures of one list of stems. */
export type StandMeasures = Readonly<
  Record<
    | 'stems'
    | 'basalArea'
    | 'stemsPerArea'
    | 'basalAreaPerArea'
    | 'quadraticMeanDiameter'
    | 'sdiByQmd'
    | 'sdiBySummation'
    | 'curtisRelativeDensity',
    Figure | NotEnough
  >
>;

/** Units, the land that the tally covers if it is known, and the reference diameter of density, which is named. */
export type MeasuresAsked = Readonly<{ system: System; land?: Land; reference: ReferenceDiameter }>;

/** All measures of a list. What cannot be computed says what is missing; the others stand. */
export function standMeasures(tally: Tally, asked: MeasuresAsked): StandMeasures {
  const { system, land } = asked;
  const area = system === 'inch' ? 'ac' : 'ha';
  const stems: Figure = { value: stemCount(tally), unit: 'stems', method: 'count', source: 'definition' };
  const total = totalBasalArea(tally, system);
  return {
    stems,
    basalArea: total,
    stemsPerArea: perLand(stems, land, system, `stems/${area}`),
    basalAreaPerArea: perLand(total, land, system, system === 'inch' ? 'ft2/ac' : 'm2/ha'),
    quadraticMeanDiameter: quadraticMeanDiameter(tally, system),
    sdiByQmd: sdiByQmd(tally, asked),
    sdiBySummation: sdiBySummation(tally, asked),
    curtisRelativeDensity: curtisRelativeDensity(tally, land),
  };
}

function perLand(
  figure: Figure | NotEnough,
  land: Land | undefined,
  system: System,
  unit: string,
): Figure | NotEnough {
  if (isNotEnough(figure)) return figure;
  const area = landIn(land, system);
  if (isNotEnough(area)) return area;
  return { ...figure, value: figure.value / area, unit, method: `${figure.method}, per area of land` };
}

/** The four columns of a cut: what stood before, was removed, was lost otherwise, and is left. */
export type Columns<Cell> = Readonly<Record<'before' | 'removed' | 'lost' | 'left', Cell>>;

/**
 * The measures of all four columns. Stems and basal area add up across them (before = removed + lost + left when
 * every stem is in exactly one of the three lists with the DBH it had before); mean diameter and densities are
 * computed afresh for each. `unaccounted` is what is missing to that sum: 0 when the lists agree.
 */
export function standColumns(
  lists: Columns<Tally>,
  asked: MeasuresAsked,
): Columns<StandMeasures> & {
  readonly unaccounted: Readonly<Record<'stems' | 'basalArea', Figure | NotEnough>>;
} {
  const columns = {
    before: standMeasures(lists.before, asked),
    removed: standMeasures(lists.removed, asked),
    lost: standMeasures(lists.lost, asked),
    left: standMeasures(lists.left, asked),
  };
  return {
    ...columns,
    unaccounted: { stems: unaccounted(columns, 'stems'), basalArea: unaccounted(columns, 'basalArea') },
  };
}

function unaccounted(columns: Columns<StandMeasures>, of: 'stems' | 'basalArea'): Figure | NotEnough {
  const before = columns.before[of];
  if (isNotEnough(before)) return before;
  let value = before.value;
  for (const part of [columns.removed[of], columns.lost[of], columns.left[of]]) {
    if (isNotEnough(part)) return part;
    value -= part.value;
  }
  return { ...before, value, method: `before − removed − lost − left: ${before.method}` };
}
