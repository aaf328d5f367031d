// Wind as it was noted, in the unit that the model computes with.
import { type QuantityEntered, readQuantity } from '../events/index.ts';
import { instantOf, type Stand } from '../stand/index.ts';
import { FellingError } from './error.ts';

/** Metres a second in one of each unit: the international foot and the nautical mile are exact. */
const SPEEDS: Readonly<Record<string, number>> = {
  'm/s': 1,
  mph: 0.44704,
  'km/h': 1 / 3.6,
  kn: 1852 / 3600,
};

/** The strongest wind that is taken for no slip of typing, m/s: a hurricane begins at 32.7 (Beaufort 12). */
const STRONGEST = 40;

/**
 * Wind as somebody types it for a plan: "8 mph"; a bare number is metres a second.
 * @throws FellingError
 */
export function typedWind(text: string): number {
  const read = readQuantity(text, Object.keys(SPEEDS), 'm/s');
  const speed = read.ok ? metresPerSecond(read.value) : undefined;
  if (speed === undefined || !(speed >= 0 && speed <= STRONGEST))
    throw new FellingError(
      'wind',
      text,
      `"${text}" is no wind.`,
      `Give metres a second, 0 to ${STRONGEST}, or a speed with its unit, such as 8 mph.`,
    );
  return speed;
}

/** A wind in words, as people of this logbook read it. */
export function windWords(speed: number, system: 'inch' | 'metric'): string {
  const [unit, of] = system === 'inch' ? (['mph', SPEEDS.mph] as const) : (['m/s', 1] as const);
  return `${Number((speed / (of ?? 1)).toFixed(1))} ${unit}`;
}

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
