/** A share of counted things, with its interval: Wilson's, and the exact one of Clopper and Pearson. */
import { normalQuantile } from './distributions.ts';
import { checkLevel } from './level.ts';
import { logChoose } from './log-gamma.ts';
import { rootBetween } from './root.ts';

export type ShareInterval = Readonly<{ share: number; low: number; high: number; level: number }>;

/**
 * Wilson's score interval, without correction for continuity. Source: Wilson 1927, J. Am. Stat. Assoc. 22:209–212.
 *
 * @param yes whole number from 0 to `of`
 * @param of whole number, at least 1
 * @param level confidence level, 0.95 by default
 * @throws RangeError for counts that are none
 */
export function wilsonInterval(yes: number, of: number, level = 0.95): ShareInterval {
  check(yes, of, level);
  const z = -normalQuantile((1 - level) / 2);
  const share = yes / of;
  const middle = share + (z * z) / (2 * of);
  const half = z * Math.sqrt((share * (1 - share)) / of + (z * z) / (4 * of * of));
  const whole = 1 + (z * z) / of;
  return {
    share,
    low: yes === 0 ? 0 : (middle - half) / whole,
    high: yes === of ? 1 : (middle + half) / whole,
    level,
  };
}

/**
 * The exact interval: at its ends the count that was seen, or one farther out, has a chance of just half of what the
 * level leaves. Source: Clopper & Pearson 1934, Biometrika 26:404–413. Parameters and errors as for `wilsonInterval`.
 */
export function exactInterval(yes: number, of: number, level = 0.95): ShareInterval {
  check(yes, of, level);
  const tail = (1 - level) / 2;
  return {
    share: yes / of,
    low: yes === 0 ? 0 : rootBetween((share) => tail - atLeast(yes, of, share), 0, 1),
    high: yes === of ? 1 : rootBetween((share) => atLeast(of - yes, of, 1 - share) - tail, 0, 1),
    level,
  };
}

/** The chance that at least `count` of `of` are, when each is with the chance `share`. */
function atLeast(count: number, of: number, share: number): number {
  if (share <= 0) return count === 0 ? 1 : 0;
  if (share >= 1) return 1;
  let total = 0;
  for (let many = of; many >= count; many -= 1)
    total += Math.exp(logChoose(of, many) + many * Math.log(share) + (of - many) * Math.log1p(-share));
  return Math.min(1, total);
}

function check(yes: number, of: number, level: number): void {
  if (!Number.isInteger(of) || of < 1)
    throw new RangeError(`of: ${of} is no count; give a whole number of at least 1.`);
  if (!Number.isInteger(yes) || yes < 0 || yes > of)
    throw new RangeError(`yes: ${yes} is no part of ${of}; give a whole number from 0 to ${of}.`);
  checkLevel(level);
}
