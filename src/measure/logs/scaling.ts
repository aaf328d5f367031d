/** From what the tape says to what a log rule takes: whole inches, even feet. */
import type { NotEnough } from '../figure.ts';
import { notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { lengthIn } from '../units.ts';

/** Which way the next exact half inch goes. The first of a tally goes down. */
export type HalfInchTurn = 'down' | 'up';

/** A scaling diameter in whole inches, and the turn that the next log is scaled with. */
export type ScalingDiameter = Readonly<{ diameter: number; next: HalfInchTurn }>;

/** Two readings of a tape differ from a half inch by less than this only through binary fractions. */
const SAME = 1e-9;

/**
 * Scaling diameter from two readings at right angles, small end, inside bark, in: their mean to the nearest inch;
 * exact half inches go down and up in turn, so that neither side gains.
 *
 * Sources: landowner article (docslib.org, doc/1153377) and Wengert, for the turns starting down; Georgia Code
 * 2-14-80, for half inches spread evenly.
 *
 * @param turn `down` for the first log of a tally, then what the log before gave as `next`
 */
export function scalingDiameter(
  readings: readonly [number, number],
  turn: HalfInchTurn,
): ScalingDiameter | NotEnough {
  const [one, other] = readings;
  const wrong = outOfRange(
    { what: 'first reading of the diameter', value: one, unit: 'in', least: 0 },
    { what: 'second reading of the diameter', value: other, unit: 'in', least: 0 },
  );
  return wrong ?? nearestInch((one + other) / 2, turn);
}

/** A diameter in inches to the nearest inch; exact halves by turn. Zero or more. */
export function nearestInch(mean: number, turn: HalfInchTurn): ScalingDiameter {
  const whole = Math.floor(mean + SAME);
  const beyond = mean - whole;
  if (Math.abs(beyond - 0.5) > SAME) return { diameter: beyond > 0.5 ? whole + 1 : whole, next: turn };
  return turn === 'down' ? { diameter: whole, next: 'up' } : { diameter: whole + 1, next: 'down' };
}

/**
 * Scaling diameter by the Vermont statute: fractions of an inch under ½ are dropped, over ½ raised. The statute, as
 * seen, says nothing of exactly ½; those go by turn as elsewhere. Source: 9 V.S.A. § 2693.
 */
export function vermontDiameter(diameter: number, turn: HalfInchTurn): ScalingDiameter | NotEnough {
  const wrong = outOfRange({ what: 'diameter', value: diameter, unit: 'in', least: 0 });
  return wrong ?? nearestInch(diameter, turn);
}

/** What a log must have beyond its scaling length, and which scaling lengths there are. */
export type LengthRule = Readonly<{ trimInches: number; shortestFeet: number; longestFeet: number }>;

/** Even feet from 8 to 16 with 4 in of trim. Source: landowner article (docslib.org, doc/1153377). */
export const EVEN_FEET: LengthRule = { trimInches: 4, shortestFeet: 8, longestFeet: 16 };

/**
 * Scaling length of a log in feet: the largest even number of feet that fits with the trim. A log of 16 ft 4 in
 * scales as 16 ft, one of 16 ft 3 in as 14 ft.
 *
 * @param measured whole length, ft
 */
export function scalingLength(measured: number, rule: LengthRule = EVEN_FEET): number | NotEnough {
  const { trimInches, shortestFeet, longestFeet } = rule;
  const wrong = outOfRange({ what: 'length of the log', value: measured, unit: 'ft', least: 0 });
  if (wrong !== undefined) return wrong;
  const even = 2 * Math.floor((lengthIn(measured, 'ft', 'in') - trimInches + SAME) / 24);
  if (even < shortestFeet) {
    return notEnough(
      `a log of ${inWords(measured)} ft is too short for ${shortestFeet} ft and ${trimInches} in of trim`,
    );
  }
  if (even > longestFeet) {
    return notEnough(
      `a log of ${inWords(measured)} ft is longer than ${longestFeet} ft and its trim; scale it in segments`,
    );
  }
  return even;
}

/** Feet for a sentence: 7 ft 1 in is 7.0833…. */
function inWords(feet: number): number {
  return Number(feet.toFixed(2));
}
