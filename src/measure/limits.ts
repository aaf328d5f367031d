/** What a measure must be before a formula may use it, asked the same way by every formula. */
import type { NotEnough } from './figure.ts';
import { notEnough } from './figure.ts';

/** A measure with the words it is called by and the range in which the formula holds (both ends included). */
export type Measure = Readonly<{ what: string; value: number; unit: string; least: number; most?: number }>;

/** The first measure that is missing or out of its range, in words; undefined when all fit. */
export function outOfRange(...measures: readonly Measure[]): NotEnough | undefined {
  for (const { what, value, unit, least, most } of measures) {
    if (!Number.isFinite(value)) return notEnough(`the ${what} is missing`);
    if (value < least) return notEnough(`a ${what} of ${value} ${unit} is under ${least} ${unit}`);
    if (most !== undefined && value > most)
      return notEnough(`a ${what} of ${value} ${unit} is over ${most} ${unit}`);
  }
  return undefined;
}
