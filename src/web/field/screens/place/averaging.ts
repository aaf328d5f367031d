// Fixes of a phone, averaged. Pure; no clock and no phone.

/** One fix as a browser gives it: degrees (WGS 84), accuracy in metres, time in milliseconds since 1970. */
export type Fix = Readonly<{ lat: number; lon: number; accuracy: number; at: number }>;

export type Mean = Fix & Readonly<{ fixes: number }>;

/** A fix this old says where the phone was, not where it is. Milliseconds. */
export const staleAfter = 60_000;
/** A fix this uncertain cannot tell neighbouring stems apart. Metres; common practice, no source. */
export const poorAbove = 10;

/**
 * How old a fix is, milliseconds. Some phones stamp fixes by their own clock and some by that of the satellites; where
 * the phone's clock is known to be off, the reading by which the fix is nearer to now is taken.
 * @param clockAhead how far the phone's clock is ahead, milliseconds; undefined while nobody knows
 */
export function ageOf(at: number, now: number, clockAhead: number | undefined): number {
  if (clockAhead === undefined) return Math.max(0, now - at);
  return Math.min(Math.abs(now - at), Math.abs(now - clockAhead - at));
}

/**
 * The mean of fixes, each weighted by 1 / accuracy². The accuracy given is that of an average fix (the root of the
 * harmonic mean of the squares), for the errors of one phone at one spot go together: averaging must not promise more.
 * Undefined without fixes.
 */
export function mean(fixes: readonly Fix[]): Mean | undefined {
  const last = fixes.at(-1);
  if (last === undefined) return undefined;
  const weights = fixes.map(({ accuracy }) => 1 / Math.max(accuracy, 0.1) ** 2);
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const weighted = (part: (fix: Fix) => number) =>
    fixes.reduce((total, fix, index) => total + part(fix) * (weights[index] ?? 0), 0) / sum;
  // Longitudes near the antimeridian are averaged as differences from the last one.
  const east = weighted(({ lon }) => ((lon - last.lon + 540) % 360) - 180);
  return {
    lat: weighted(({ lat }) => lat),
    lon: ((last.lon + east + 540) % 360) - 180,
    accuracy: Math.sqrt(fixes.length / sum),
    at: last.at,
    fixes: fixes.length,
  };
}
