// How much of a regeneration patch a falling stem takes: the share by direction, averaged over the felled length and over the
// squares of the patch, so that an aim only has to be weighed with it.
import { type Contact, eachSpan, type Harm } from './crown.ts';
import { azimuth, below, type Fall, turn, WIDEST } from './fall.ts';

/** Parts of the circle in order, each with the mean share that is lost when the stem falls there. */
export type PatchShare = readonly Readonly<{ from: number; share: number }>[];

/** Width of the parts, degrees. With a direction error of 6° this is under 2e-5 of the patch off what no cutting would give. */
const PART = 1 / 8;
const PARTS = 360 / PART;

/** Averages over the squares of a patch. */
export function patchShare(squares: readonly Contact[], harm: Harm): PatchShare {
  const shares = new Float64Array(PARTS);
  for (const square of squares)
    eachSpan(square, harm, (from, to, weight) => spread(shares, from, to, weight / squares.length));
  return [...shares].flatMap((share, index) => (share > 0 ? [{ from: index * PART, share }] : []));
}

/** Adds a weight to all parts between two directions, to those at the ends as far as they are covered. */
function spread(shares: Float64Array, from: number, to: number, weight: number): void {
  const start = azimuth(from) / PART;
  const end = start + (to - from) / PART;
  for (let index = Math.floor(start); index < end; index += 1) {
    const covered = Math.min(end, index + 1) - Math.max(start, index);
    shares[index % PARTS] = (shares[index % PARTS] ?? 0) + weight * covered;
  }
}

/** The expected share of the patch that is lost for one aim. */
export function expectedShare({ aim, directionError }: Fall, parts: PatchShare): number {
  let sum = 0;
  for (const { from, share } of parts) {
    const off = turn(from - aim) / directionError;
    if (Math.abs(off) < WIDEST) sum += share * (below(off + PART / directionError) - below(off));
  }
  return sum;
}
