// Wind as it was noted, in the unit that the model computes with.
import type { QuantityEntered } from '../events/index.ts';
import { instantOf, type Stand } from '../stand/index.ts';

/** Metres a second in one of each unit: the international foot and the nautical mile are exact. */
const SPEEDS: Readonly<Record<string, number>> = {
  'm/s': 1,
  mph: 0.44704,
  'km/h': 1 / 3.6,
  kn: 1852 / 3600,
};

type Noted = Stand['winds'][number];

/** Metres a second; undefined for a unit that is none of speed. */
export function metresPerSecond({ value, unit }: QuantityEntered): number | undefined {
  const speed = SPEEDS[unit];
  return speed === undefined ? undefined : Number(value) * speed;
}

/** Whether a wind counts at a group: noted there, or for all. */
export function blowsAt({ body }: Noted, group: string | undefined): boolean {
  return body.group === undefined || body.group === group;
}

/**
 * The wind that was noted last before some moment of the same day (UTC), so that a plan is the same all day until somebody
 * notes another.
 * @param time RFC 3339
 */
export function windAt(
  { winds }: Stand,
  group: string | undefined,
  time: string,
): Readonly<{ metresPerSecond: number; entry: string }> | undefined {
  const instant = Date.parse(time);
  const noted = winds
    .filter((one) => blowsAt(one, group) && dayOf(instantOf(one.at)) === dayOf(instant))
    .filter(({ at }) => instantOf(at) <= instant)
    .sort((one, other) => instantOf(other.at) - instantOf(one.at))[0];
  const speed = noted === undefined ? undefined : metresPerSecond(noted.body.wind);
  return noted === undefined || speed === undefined
    ? undefined
    : { metresPerSecond: speed, entry: noted.entry };
}

function dayOf(instant: number): number {
  return Math.floor(instant / 86_400_000);
}
