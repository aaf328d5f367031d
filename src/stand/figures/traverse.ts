// A traverse as it was asked for: legs, closure and area, and beside it the adjusted one where that was asked for.
import { areaIn, type LengthUnit } from '../../measure/index.ts';
import { adjusted, type Leg, type Traverse, traverse } from '../../place/index.ts';

export type TraverseAsked = Readonly<{
  /** Level distances in `unit`, azimuths from one north. */
  legs: readonly Leg[];
  unit: Extract<LengthUnit, 'ft' | 'm'>;
  /** Which north: "true", "mag" or "grid EPSG:2264". */
  north: string;
  adjust: boolean;
}>;

export type TraverseFigures = Readonly<{
  unit: TraverseAsked['unit'];
  north: string;
  measured: Traverse;
  /** By the compass rule; null unless it was asked for. */
  adjusted: Traverse | null;
  /** Of the adjusted traverse where there is one, else of the measured one, in acres or hectares. */
  land: Readonly<{ value: number; unit: 'ac' | 'ha' }>;
  method: string;
  source: string;
  remarks: readonly string[];
}>;

export function traverseFigures({ legs, unit, north, adjust }: TraverseAsked): TraverseFigures {
  const measured = traverse(legs);
  const shut = adjust ? adjusted(measured) : null;
  const landUnit = unit === 'ft' ? 'ac' : 'ha';
  const area = (shut ?? measured).area;
  return {
    unit,
    north,
    measured,
    adjusted: shut,
    land: { value: areaIn(area, unit === 'ft' ? 'ft2' : 'm2', landUnit), unit: landUnit },
    method: shut === null ? 'as measured, not adjusted' : 'compass rule (Bowditch): shares by length of leg',
    source: 'latitudes, departures and linear misclosure: J. Mahun, Traverse computations (jerrymahun.com)',
    remarks: [
      ...(shut === null && measured.misclosure.distance > 0
        ? ['The misclosure is left as it is; the area is closed by a straight line to the start.']
        : []),
      ...(shut === null
        ? []
        : ['Adjusting spreads chance errors; a blunder in one leg it only hides: find that first.']),
      'Hand compass and tape commonly close to between 1 in 80 and 1 in 300 (from memory); a boundary needs a surveyor.',
    ],
  };
}
