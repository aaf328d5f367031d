/**
 * The DBH that a stem had, from the diameter of its stump.
 *
 * Form: Raile 1982, Research Paper NC-224, read in a second-hand copy, not in the paper:
 * outside bark D_h = DBH · [1 + B · (4.5 − h)/(h + 1)], inside bark d_h = DBH · [A' + B' · (4.5 − h)/(h + 1)], with h
 * the height of the measurement above ground in feet. Coefficients: the general hardwood ones of the US national
 * inventory's species table (2024), where they stand for species that have none of their own.
 */
import { type Figure, type NotEnough, notEnough } from './figure.ts';
import { type LengthUnit, lengthIn } from './units.ts';

/** Coefficients of one species or group of species. */
export type StumpCoefficients = Readonly<{
  name: string;
  source: string;
  /** B, for diameters outside bark. */
  outside: number;
  /** A' and B', for diameters inside bark. */
  inside: Readonly<{ constant: number; slope: number }>;
}>;

/** For every species that has no coefficients of its own here; a figure made with them says "general hardwood". */
const generalHardwood: StumpCoefficients = {
  name: 'general hardwood (default)',
  source:
    'form of Raile 1982, NC-224 (second-hand copy); coefficients: US national inventory species table, 2024',
  outside: 0.12766,
  inside: { constant: 0.91979, slope: 0.12152 },
};

export type StumpDiameter = Readonly<{
  value: number;
  unit: LengthUnit;
  bark: 'inside' | 'outside';
}>;

/** Height at which the diameter was taken. From the ground to breast height the form holds; above it is no stump. */
export type StumpHeight = Readonly<{ value: number; unit: LengthUnit }>;

const breastHeightFeet = 4.5;

/**
 * DBH outside bark from a stump's diameter.
 *
 * @param diameter more than 0
 * @param height from 0 to 4.5 ft; undefined is answered with what is missing, because the height decides much: a stump
 *   14 in across stands for 8.9 in at the ground and for 11.4 in at 1 ft
 * @returns the DBH in the unit of the diameter, or what is missing
 * @throws RangeError for a diameter that is not above 0
 */
export function dbhFromStump(
  diameter: StumpDiameter,
  height: StumpHeight | undefined,
  coefficients: StumpCoefficients = generalHardwood,
): Figure | NotEnough {
  if (!(Number.isFinite(diameter.value) && diameter.value > 0))
    throw new RangeError(`diameter: ${diameter.value} is no diameter; give a number above 0.`);
  if (height === undefined) return notEnough('the height at which the stump was measured is missing.');
  const feet = lengthIn(height.value, height.unit, 'ft');
  if (!(feet >= 0 && feet <= breastHeightFeet))
    return notEnough(
      `the form holds from the ground to 4.5 ft; the stump was measured at ${height.value} ${height.unit}.`,
    );
  const taper = (breastHeightFeet - feet) / (feet + 1);
  const { outside, inside } = coefficients;
  const ratio = diameter.bark === 'outside' ? 1 + outside * taper : inside.constant + inside.slope * taper;
  return {
    value: diameter.value / ratio,
    unit: diameter.unit,
    method: `DBH from the stump diameter ${diameter.bark} bark, ${coefficients.name}`,
    source: coefficients.source,
  };
}
