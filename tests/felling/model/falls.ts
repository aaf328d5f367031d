// Simulated falls to compare the felling model with: what a fall touches by plain geometry, and how far shares may be off.

/** A standard normal number. Box & Muller 1958, Ann. Math. Stat. 29:610. */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** The share of `count` draws for which `hit` is true. */
export function shareOf(count: number, hit: () => boolean): number {
  let hits = 0;
  for (let index = 0; index < count; index += 1) if (hit()) hits += 1;
  return hits / count;
}

/** Four binomial standard errors of a share p among `count`: one correct comparison in 16,000 goes past it. */
export const fourErrors = (p: number, count: number): number =>
  4 * Math.sqrt(Math.max(p * (1 - p), 1 / count) / count);

/** Whether a lay of this direction and length touches a disc with its bole (a strip) and with its crown (an ellipse), by plain geometry. */
export function touches(
  body: { halfWidth: number; crownBase: number; crownRadius: number },
  disc: { distance: number; bearing: number; radius: number },
  direction: number,
  length: number,
): { bole: boolean; crown: boolean } {
  const off = ((direction - disc.bearing) * Math.PI) / 180;
  const along = disc.distance * Math.cos(off);
  const aside = disc.distance * Math.sin(off);
  const bole =
    disc.distance <= length + disc.radius && along > 0 && Math.abs(aside) <= body.halfWidth + disc.radius;
  const middle = (body.crownBase + length) / 2;
  const long = (length - body.crownBase) / 2 + disc.radius;
  const wide = body.crownRadius + disc.radius;
  const crown = long > 0 && ((along - middle) / long) ** 2 + (aside / wide) ** 2 <= 1;
  return { bole, crown };
}
