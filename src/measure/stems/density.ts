/**
 * Mean diameter and stand density. None of these adds up: the density of what is left is computed from what is left,
 * never as a difference.
 */

import type { Figure, NotEnough } from '../figure.ts';
import { isNotEnough, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { areaIn, lengthIn } from '../units.ts';
import {
  countOf,
  type Diameter,
  type Land,
  landIn,
  type System,
  stemCount,
  type Tally,
  whyNoDiameters,
} from './tally.ts';

/** The diameter against which stand density index counts. 10 in and 25.4 cm are one; 25 cm gives other numbers. */
export type ReferenceDiameter = '10 in' | '25.4 cm' | '25 cm';

const REFERENCES: Readonly<Record<ReferenceDiameter, Diameter>> = {
  '10 in': { value: 10, unit: 'in' },
  '25.4 cm': { value: 25.4, unit: 'cm' },
  '25 cm': { value: 25, unit: 'cm' },
};

/** Reineke's slope. */
const SLOPE = 1.605;

const REINEKE = 'Reineke 1933, Journal of Agricultural Research 46; larsendr.github.io/sdi.html';
const SUMMATION = 'from memory: Long & Daniel 1990; Shaw 2000';

/** Quadratic mean diameter, in or cm: the diameter of the stem of mean basal area, `√(Σ n d² / Σ n)`. */
export function quadraticMeanDiameter(tally: Tally, system: System): Figure | NotEnough {
  const wrong = whyNoDiameters(tally);
  if (wrong !== undefined) return wrong;
  const count = stemCount(tally);
  if (count === 0) return notEnough('there is no stem');
  const squares = tally.stems.reduce((sum, stem) => sum + countOf(stem) * (stem.dbh ?? 0) ** 2, 0);
  const unit = system === 'inch' ? 'in' : 'cm';
  return {
    value: lengthIn(Math.sqrt(squares / count), tally.unit, unit),
    unit,
    method: 'quadratic mean of DBH',
    source: 'definition',
  };
}

/**
 * Stand density index of `stems` per unit of land with a quadratic mean diameter: `N · (QMD / reference)^1.605`.
 * Source: Reineke 1933. Comparable only with indices of the same reference diameter and per the same unit of land.
 */
export function sdiOf(stems: number, qmd: Diameter, reference: ReferenceDiameter): number {
  return (
    stems * (lengthIn(qmd.value, qmd.unit, REFERENCES[reference].unit) / REFERENCES[reference].value) ** SLOPE
  );
}

/** Stand density index by quadratic mean diameter. No stem on known land is an index of 0. */
export function sdiByQmd(
  tally: Tally,
  { land, system, reference }: Readonly<{ land?: Land; system: System; reference: ReferenceDiameter }>,
): Figure | NotEnough {
  const area = landIn(land, system);
  if (isNotEnough(area)) return area;
  const count = stemCount(tally);
  const qmd = quadraticMeanDiameter(tally, system);
  if (count > 0 && isNotEnough(qmd)) return qmd;
  const mean = isNotEnough(qmd) ? 0 : qmd.value;
  return {
    value: sdiOf(count / area, { value: mean, unit: system === 'inch' ? 'in' : 'cm' }, reference),
    unit: system === 'inch' ? 'per ac' : 'per ha',
    method: `stand density index by quadratic mean diameter, reference ${reference}`,
    source: REINEKE,
  };
}

/**
 * Stand density index by summation: `Σ n · (d / reference)^1.605`. Less disturbed by an uneven structure, and never
 * above the index by quadratic mean diameter. From memory: Long & Daniel 1990, Shaw 2000.
 */
export function sdiBySummation(
  tally: Tally,
  { land, system, reference }: Readonly<{ land?: Land; system: System; reference: ReferenceDiameter }>,
): Figure | NotEnough {
  const area = landIn(land, system);
  if (isNotEnough(area)) return area;
  const wrong = whyNoDiameters(tally);
  if (wrong !== undefined) return wrong;
  const value = tally.stems.reduce((sum, stem) => {
    return sum + sdiOf(countOf(stem) / area, { value: stem.dbh ?? 0, unit: tally.unit }, reference);
  }, 0);
  return {
    value,
    unit: system === 'inch' ? 'per ac' : 'per ha',
    method: `stand density index by summation, reference ${reference}`,
    source: SUMMATION,
  };
}

/** Curtis' relative density: basal area in ft²/ac over the root of QMD in inches. From memory. */
export function curtisRelativeDensity(tally: Tally, land?: Land): Figure | NotEnough {
  const area = landIn(land, 'inch');
  if (isNotEnough(area)) return area;
  const qmd = quadraticMeanDiameter(tally, 'inch');
  if (isNotEnough(qmd)) return qmd;
  const wrong = outOfRange({
    what: 'quadratic mean diameter',
    value: qmd.value,
    unit: 'in',
    least: Number.MIN_VALUE,
  });
  if (wrong !== undefined) return wrong;
  const perAcre = (areaIn((Math.PI / 4) * qmd.value ** 2, 'in2', 'ft2') * stemCount(tally)) / area;
  return {
    value: perAcre / Math.sqrt(qmd.value),
    unit: 'ft2/ac per √in',
    method: 'relative density, basal area / √QMD',
    source: 'from memory: Curtis',
  };
}
