/**
 * Quantities per unit of land: basal area, stems and cubic volume per acre and per hectare. International acre and
 * foot; exact factors, 1 ft²/ac = 0.2295684… m²/ha. Source: definitions; CFA Forestry Handbook ch. 12 agrees to the
 * digits it has.
 */
/** Basal area per area of land. */
export type BasalAreaPerArea = 'ft2/ac' | 'm2/ha';
/** Number of stems per area of land. */
export type StemsPerArea = 'stems/ac' | 'stems/ha';
/** Solid volume per area of land. */
export type VolumePerArea = 'ft3/ac' | 'm3/ha';

type PerAreaUnit = BasalAreaPerArea | StemsPerArea | VolumePerArea;

/** Exact, as all of these: 43,560 · 0.3048² / 10⁴. Plain numbers, so that a bundle without this file keeps nothing of it. */
const ACRE_IN_HECTARES = 0.40468564224;

/** What one unit per acre is in metric units per hectare. */
const METRIC: Readonly<Record<PerAreaUnit, number>> = {
  'ft2/ac': 0.09290304 / ACRE_IN_HECTARES,
  'm2/ha': 1,
  'stems/ac': 1 / ACRE_IN_HECTARES,
  'stems/ha': 1,
  'ft3/ac': 0.028316846592 / ACRE_IN_HECTARES,
  'm3/ha': 1,
};

/** A quantity per area in the other unit of its kind; basal area, stems and volume do not turn into each other. */
export function perAreaIn(value: number, from: BasalAreaPerArea, to: BasalAreaPerArea): number;
export function perAreaIn(value: number, from: StemsPerArea, to: StemsPerArea): number;
export function perAreaIn(value: number, from: VolumePerArea, to: VolumePerArea): number;
export function perAreaIn(value: number, from: PerAreaUnit, to: PerAreaUnit): number {
  return from === to ? value : (value * METRIC[from]) / METRIC[to];
}
