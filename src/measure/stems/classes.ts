/** Size classes: from a lower limit, which belongs to the class, up to but not including the next. */
import { type NotEnough, notEnough } from '../figure.ts';
import type { LengthUnit } from '../units.ts';
import { lengthIn } from '../units.ts';
import type { Diameter } from './tally.ts';

/** Rising lower limits; the last class is open upwards. */
export type SizeClasses = Readonly<{ limits: readonly number[]; unit: LengthUnit }>;

/** One class: lower limit included, upper limit not; null when nothing lies above. */
export type SizeClass = Readonly<{ lower: number; upper: number | null; unit: LengthUnit }>;

/** How large a rounding error of a unit conversion may be, as a share; no tape reads finer than this. */
const SAME = 1e-12;

/**
 * Classes of equal width, the lowest from `from`. Two-inch classes named by their middle (4, 6, 8 in) start at odd
 * inches: `evenClasses({ from: 3, width: 2, unit: 'in', upTo: 41 })`.
 *
 * @param upTo lower limit of the last, open class at most
 */
export function evenClasses({
  from,
  width,
  unit,
  upTo,
}: Readonly<{ from: number; width: number; unit: LengthUnit; upTo: number }>): SizeClasses | NotEnough {
  if (!(width > 0) || !(upTo >= from))
    return notEnough(`classes need a width above 0 and an end above ${from} ${unit}`);
  const number = Math.floor((upTo - from) / width) + 1;
  return { limits: Array.from({ length: number }, (_, at) => from + at * width), unit };
}

/** Two-inch classes from 1 in: 1 to under 3, 3 to under 5, … named 2, 4, 6 in by their middles. */
export const TWO_INCH_CLASSES: SizeClasses = {
  limits: /* @__PURE__ */ Array.from({ length: 30 }, (_, at) => 1 + 2 * at),
  unit: 'in',
};

/** Five-centimetre classes from 0: 0 to under 5, 5 to under 10, … */
export const FIVE_CENTIMETRE_CLASSES: SizeClasses = {
  limits: /* @__PURE__ */ Array.from({ length: 30 }, (_, at) => 5 * at),
  unit: 'cm',
};

/** Classes with limits of one's own, in rising order. */
export function classesFrom(limits: readonly number[], unit: LengthUnit): SizeClasses | NotEnough {
  const rising = limits.every((limit, at) => at === 0 || limit > (limits[at - 1] ?? limit));
  return rising && limits.length > 0 && limits.every(Number.isFinite)
    ? { limits, unit }
    : notEnough('class limits in rising order');
}

/**
 * The class of a diameter, compared unrounded: 15.96 in is not 16 in. Undefined below the lowest limit. A metric
 * reading that is a limit exactly (25.4 cm for 10 in) counts as reaching it.
 */
export function sizeClass(diameter: Diameter, { limits, unit }: SizeClasses): SizeClass | undefined {
  const value = lengthIn(diameter.value, diameter.unit, unit);
  const reached = value * (1 + SAME);
  let low = -1;
  for (let high = limits.length; high - low > 1; ) {
    const middle = (low + high) >> 1;
    if ((limits[middle] ?? Number.POSITIVE_INFINITY) <= reached) low = middle;
    else high = middle;
  }
  const lower = limits[low];
  return lower === undefined ? undefined : { lower, upper: limits[low + 1] ?? null, unit };
}
