/**
 * Units of length and area and the exact factors between them.
 *
 * Each factor is a fraction of whole numbers, so that 12 in is exactly 1 ft and no rounded factor sits between.
 * Sources: international yard and pound agreement of 1959 (1 yd = 0.9144 m exactly); US survey foot = 1200/3937 m
 * (Mendenhall Order, 1893; US Federal Register 1959). The chain is 66 international feet, the acre 10 square chains;
 * the US survey acre is 43,560 square US survey feet.
 */

/** Units a length can be given in. `ft` is the international foot, `us-ft` the US survey foot, `ch` a chain of 66 ft. */
export type LengthUnit = 'in' | 'ft' | 'us-ft' | 'yd' | 'ch' | 'mm' | 'cm' | 'm';

/** Units an area can be given in. `ft2` and `ac` rest on the international foot, `us-ac` on the US survey foot. */
export type AreaUnit = 'in2' | 'ft2' | 'ac' | 'us-ac' | 'cm2' | 'm2' | 'ha';

type Fraction = readonly [numerator: number, denominator: number];

/** Tenths of a millimetre in one unit: whole numbers for all but the US survey foot. */
const LENGTHS: Readonly<Record<LengthUnit, Fraction>> = {
  in: [254, 1],
  ft: [3048, 1],
  'us-ft': [12_000_000, 3937],
  yd: [9144, 1],
  ch: [201_168, 1],
  mm: [10, 1],
  cm: [100, 1],
  m: [10_000, 1],
};

/** Hundredths of a square millimetre in one unit: whole numbers for all but the US survey acre. */
const AREAS: Readonly<Record<AreaUnit, Fraction>> = {
  in2: [64_516, 1],
  ft2: [9_290_304, 1],
  ac: [404_685_642_240, 1],
  // 43,560 · 12² · 10¹² / 3937², of which 43,560 · 144 = 6,272,640.
  'us-ac': [6_272_640e12, 15_499_969],
  cm2: [10_000, 1],
  m2: [100_000_000, 1],
  ha: [1_000_000_000_000, 1],
};

/** All length units, in the order they are offered. */
export const LENGTH_UNITS: readonly LengthUnit[] = ['in', 'ft', 'us-ft', 'yd', 'ch', 'mm', 'cm', 'm'];

/** All area units, in the order they are offered. */
export const AREA_UNITS: readonly AreaUnit[] = ['in2', 'ft2', 'ac', 'us-ac', 'cm2', 'm2', 'ha'];

/** True when `unit` names a length unit. */
export function isLengthUnit(unit: string): unit is LengthUnit {
  return Object.hasOwn(LENGTHS, unit);
}

/** True when `unit` names an area unit. */
export function isAreaUnit(unit: string): unit is AreaUnit {
  return Object.hasOwn(AREAS, unit);
}

/** A length given in `from`, expressed in `to`. Any finite value; NaN stays NaN. */
export function lengthIn(value: number, from: LengthUnit, to: LengthUnit): number {
  return from === to ? value : scaled(value, LENGTHS[from], LENGTHS[to]);
}

/** An area given in `from`, expressed in `to`. Any finite value; NaN stays NaN. */
export function areaIn(value: number, from: AreaUnit, to: AreaUnit): number {
  return from === to ? value : scaled(value, AREAS[from], AREAS[to]);
}

function scaled(value: number, [fromTop, fromBottom]: Fraction, [toTop, toBottom]: Fraction): number {
  return (value * (fromTop * toBottom)) / (fromBottom * toTop);
}
