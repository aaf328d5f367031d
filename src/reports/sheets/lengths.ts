// Lengths on a sheet: kept in metres, shown in the units that were asked for.
import { lengthIn, type System } from '../../measure/index.ts';
import { rounded } from './model.ts';

export type Lengths = Readonly<{
  unit: 'ft' | 'm';
  /** A length in metres as a number in `unit`, with so many decimals; whole feet and tenths of a metre if left out. */
  of: (metres: number, decimals?: number) => string;
}>;

export function lengthsIn(system: System): Lengths {
  return system === 'inch'
    ? { unit: 'ft', of: (metres, decimals = 0) => rounded(lengthIn(metres, 'm', 'ft'), decimals) }
    : { unit: 'm', of: (metres, decimals = 1) => rounded(metres, decimals) };
}
