// One fall: the direction is normal around the aim, the felled length normal around the height, one knows nothing of the
// other. Angles in degrees, lengths in metres. No model like this was found published; docs/felling-model.md states ours.
import { normalBelow } from '../../measure/index.ts';

/** How a stem is to fall and how well that is known. Both errors are standard deviations. */
export type Fall = Readonly<{
  /** True azimuth aimed at. */
  aim: number;
  /** Degrees, above 0. */
  directionError: number;
}>;

/** The body of a falling stem. */
export type Body = Readonly<{
  height: number;
  /** Share of the height, 0 or more; 0: the felled length is the height. */
  lengthError: number;
  /** Half the width of the bole. */
  halfWidth: number;
  crownBase: number;
  crownRadius: number;
}>;

/** Beyond so many standard deviations nothing is left of a normal distribution (1e-17). */
export const WIDEST = 8.5;
const STEPS = 128;

/** Degrees in a radian. */
export const DEGREES = 180 / Math.PI;

/** `angle` as the turn from −180 (included) to 180. */
export function turn(angle: number): number {
  const positive = (((angle + 180) % 360) + 360) % 360;
  return positive - 180;
}

/** `angle` from 0 (included) to 360. */
export function azimuth(angle: number): number {
  const positive = ((angle % 360) + 360) % 360;
  return positive === 360 ? 0 : positive;
}

/** The chance that the stem falls between two directions, `from` clockwise to `to` ≤ `from` + 360, whichever way round north. */
export function directionChance({ aim, directionError }: Fall, from: number, to: number): number {
  const low = turn(from - aim);
  const high = low + (to - from);
  let chance = below(high / directionError) - below(low / directionError);
  // What goes on past straight back, and the far tails of a wide error, come round from the other side.
  if (high > 180 || WIDEST * directionError > 180)
    for (const round of [-360, 360])
      chance += below((high + round) / directionError) - below((low + round) / directionError);
  return Math.max(0, Math.min(1, chance));
}

/** The chance that the stem is at least `length` long on the ground. */
export function lengthChance({ height, lengthError }: Body, length: number): number {
  if (lengthError === 0) return height >= length ? 1 : 0;
  return below((1 - length / height) / lengthError);
}

/**
 * The share of a standard normal distribution below `z`. Between points 1/128 apart it is a cubic that meets value and
 * slope (at most 2e-11 off), because a plan asks for it some million times; beyond ±8.5 it is 0 or 1 (1e-17 off).
 */
export function below(z: number): number {
  if (z <= -WIDEST) return 0;
  if (z >= WIDEST) return 1;
  const at = (z + WIDEST) * STEPS;
  const index = Math.min(Math.floor(at), 2 * WIDEST * STEPS - 1);
  const { values, slopes } = table();
  const part = at - index;
  const start = values[index] ?? 0;
  const end = values[index + 1] ?? 1;
  const out = (slopes[index] ?? 0) / STEPS;
  const into = (slopes[index + 1] ?? 0) / STEPS;
  const rise = end - start;
  return start + part * (out + part * (3 * rise - 2 * out - into + part * (out + into - 2 * rise)));
}

type Table = Readonly<{ values: Float64Array; slopes: Float64Array }>;
let made: Table | undefined;

/** Made when first asked for: a phone that plans nothing need not wait for it. */
function table(): Table {
  if (made !== undefined) return made;
  const count = 2 * WIDEST * STEPS + 1;
  const values = new Float64Array(count);
  const slopes = new Float64Array(count);
  for (let index = 0; index < count; index += 1) {
    const z = index / STEPS - WIDEST;
    values[index] = normalBelow(z);
    slopes[index] = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  }
  made = { values, slopes };
  return made;
}
