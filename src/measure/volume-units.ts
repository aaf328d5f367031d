/**
 * Units of wood volume. Solid wood and stacked wood (with the air in the pile) are different types that never mix:
 * one comes from the other only by a solid content that the caller states.
 *
 * Factors are exact: 1 ft³ = 0.3048³ m³; a cord is 128 ft³ stacked, a stere 1 m³ stacked, a cunit 100 ft³ solid; a
 * board foot of sawn measure is 1/12 ft³. Sources: FAO T0269E App. II; CCC Forestry ch. VIII.
 */
import type { Figure, NotEnough } from './figure.ts';
import { notEnough } from './figure.ts';
import { outOfRange } from './limits.ts';
import { type Volume, volume } from './logs/volume.ts';
import type { LengthUnit } from './units.ts';
import { lengthIn } from './units.ts';

/** Units of solid wood. `sawn-bf` is sawn lumber of 1/12 ft³, never the board foot of a log rule. */
export type SolidUnit = 'ft3' | 'cunit' | 'sawn-bf' | 'm3';

/** Units of stacked wood, air included. */
export type StackedUnit = 'stacked-ft3' | 'cord' | 'stere';

/** Solid wood. */
export type SolidVolume = Readonly<{ measured: 'solid'; value: number; unit: SolidUnit }>;

/** Wood in a pile, with the air between the pieces. */
export type StackedVolume = Readonly<{ measured: 'stacked'; value: number; unit: StackedUnit }>;

/** Cubic metres in a cubic foot: 0.3048³, exactly. */
const CUBIC_FOOT = 0.028316846592;

/** Parts of a cubic foot or whole cubic feet; metric units go over the exact cubic foot. */
const SOLID: Readonly<Record<SolidUnit, number>> = {
  ft3: 1,
  cunit: 100,
  'sawn-bf': 1 / 12,
  m3: 1 / CUBIC_FOOT,
};
const STACKED: Readonly<Record<StackedUnit, number>> = { 'stacked-ft3': 1, cord: 128, stere: 1 / CUBIC_FOOT };

/** A quantity of solid wood. */
export function solid(value: number, unit: SolidUnit): SolidVolume {
  return { measured: 'solid', value, unit };
}

/** A quantity of stacked wood. */
export function stacked(value: number, unit: StackedUnit): StackedVolume {
  return { measured: 'stacked', value, unit };
}

/** Solid wood expressed in another unit of solid wood. */
export function solidIn({ value, unit }: SolidVolume, to: SolidUnit): SolidVolume {
  return solid(unit === to ? value : (value * SOLID[unit]) / SOLID[to], to);
}

/** Stacked wood expressed in another unit of stacked wood. */
export function stackedIn({ value, unit }: StackedVolume, to: StackedUnit): StackedVolume {
  return stacked(unit === to ? value : (value * STACKED[unit]) / STACKED[to], to);
}

/**
 * Face cords as stacked wood: a face of 4 × 8 ft, as deep as the sticks are long. "A face cord" alone says nothing:
 * without the length of the sticks it is refused.
 *
 * @param stick length of the sticks, above 0
 */
export function faceCords(
  count: number,
  stick: Readonly<{ value: number; unit: LengthUnit }> | undefined,
): StackedVolume | NotEnough {
  if (stick === undefined || !(stick.value > 0)) {
    return notEnough('the length of the sticks; a face cord is 4 × 8 ft by that length');
  }
  const wrong = outOfRange({ what: 'number of face cords', value: count, unit: '', least: 0 });
  return wrong ?? stacked(count * 32 * lengthIn(stick.value, stick.unit, 'ft'), 'stacked-ft3');
}

/** A pile as a volume that can be added and priced: 128 ft³ with the air in it. Solid wood is another rule. */
export function inCords(pile: StackedVolume): Volume<'stacked-cords'> {
  const origin = { method: 'cord of 128 ft³ stacked', source: 'FAO T0269E App. II; CCC Forestry ch. VIII' };
  return volume('stacked-cords', stackedIn(pile, 'cord').value, origin);
}

/** The share of a pile that is wood, and who says so: "measured on this pile", a buyer's contract, a handbook. */
export type SolidContent = Readonly<{ share: number; source: string }>;

/** The solid wood of a pile by a stated solid content (above 0, at most 1), in ft³ or m³. */
export function solidFromStacked<Unit extends 'ft3' | 'm3'>(
  pile: StackedVolume,
  content: SolidContent | undefined,
  to: Unit,
): (SolidVolume & Figure & Readonly<{ unit: Unit }>) | NotEnough {
  if (content === undefined) return notEnough('the solid content of the pile (the share of it that is wood)');
  const { share, source } = content;
  if (!(share > 0 && share <= 1))
    return notEnough(`a solid content above 0 and at most 1; ${share} was given`);
  if (source.trim() === '') return notEnough('where the solid content comes from');
  const cubicFeet = stackedIn(pile, 'stacked-ft3').value * share;
  const value = solidIn(solid(cubicFeet, 'ft3'), to).value;
  return { measured: 'solid', value, unit: to, method: `stacked wood × solid content ${share}`, source };
}
