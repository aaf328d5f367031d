// What the crown of a falling stem reaches: an ellipse on the lay, from the crown base to the tip. Where its outline ends
// depends on the felled length, so touching is integrated over the length; for each length the directions that touch
// follow from a quadratic in the cosine of the angle off.
import { type Body, below, DEGREES, directionChance, type Fall, turn, WIDEST } from './fall.ts';
import { type Disc, halfAngle } from './strip.ts';

/** One length out of the distribution: its share, and from where to where off the bearing bole or crown touch. Degrees. */
type Slice = Readonly<{ share: number; bole: number; crown: readonly (readonly [number, number])[] }>;

/** How one stem can touch one disc, whatever is aimed at. */
export type Contact = Readonly<{ disc: Disc; widest: number; slices: readonly Slice[] }>;

/** Chances that the bole touches, and that only the crown does. */
export type Touch = Readonly<{ bole: number; crownOnly: number }>;

const NEVER: Touch = { bole: 0, crownOnly: 0 };
const FARTHEST = 6;
/** Gauss–Legendre on 0 to 1, 10 points. Abramowitz & Stegun 1964, table 25.4 (computed here by Newton's method, 25.4.30). */
const NODES = /* @__PURE__ */ gaussLegendre(10);

/** Works out how a stem can touch a disc. The disc must not lie on the stump (`distance` above 0). */
export function contact(body: Body, disc: Disc): Contact {
  const bole = halfAngle(body.halfWidth, disc);
  const tip = disc.distance - disc.radius;
  const slices = lengths(body, disc).map(({ length, share }) => ({
    share,
    bole: length >= tip ? bole : 0,
    crown: crownAngles(body, disc, length),
  }));
  const touching = slices.filter((slice) => slice.bole > 0 || slice.crown.length > 0);
  const widest = Math.max(
    0,
    ...touching.flatMap((slice) => [slice.bole, ...slice.crown.map(([, to]) => to)]),
  );
  return { disc, widest, slices: touching };
}

/** The chances of touching for one aim. */
export function touch(fall: Fall, { disc, widest, slices }: Contact): Touch {
  if (Math.abs(turn(disc.bearing - fall.aim)) - widest > WIDEST * fall.directionError) return NEVER;
  let bole = 0;
  let crownOnly = 0;
  for (const slice of slices) {
    if (slice.bole > 0) bole += slice.share * both(fall, disc.bearing, 0, slice.bole);
    for (const [from, to] of slice.crown)
      if (to > slice.bole)
        crownOnly += slice.share * both(fall, disc.bearing, Math.max(from, slice.bole), to);
  }
  return { bole, crownOnly };
}

/** What is lost under the bole, and under the crown only; shares. */
export type Harm = Readonly<{ bole: number; crown: number }>;

/** Gives every span of directions, `to` 0 to 360 clockwise of `from`, with what is lost there times its share of the lengths. */
export function eachSpan(
  { disc: { bearing }, slices }: Contact,
  harm: Harm,
  add: (from: number, to: number, weight: number) => void,
): void {
  for (const { share, bole, crown } of slices) {
    if (bole > 0) add(bearing - bole, bearing + bole, share * harm.bole);
    for (const [from, to] of crown) {
      const begin = Math.max(from, bole);
      if (to <= begin) continue;
      if (begin === 0) add(bearing - to, bearing + to, share * harm.crown);
      else {
        add(bearing - to, bearing - begin, share * harm.crown);
        add(bearing + begin, bearing + to, share * harm.crown);
      }
    }
  }
}

/** The chance of a direction that is off the bearing by `from` to `to` degrees, to either side. */
function both(fall: Fall, bearing: number, from: number, to: number): number {
  if (from === 0) return directionChance(fall, bearing - to, bearing + to);
  return (
    directionChance(fall, bearing - to, bearing - from) + directionChance(fall, bearing + from, bearing + to)
  );
}

/**
 * Between which angles off the bearing (degrees, 0 to 180) the crown of a stem of this felled length touches the disc.
 *
 * With c the cosine of the angle: ((d c − a)/P)² + d² (1 − c²)/R² ≤ 1, a = (B + L)/2, P = (L − B)/2 + r, R = crown radius + r.
 */
function crownAngles(
  { crownBase, crownRadius }: Body,
  { distance, radius }: Disc,
  length: number,
): readonly (readonly [number, number])[] {
  const middle = (crownBase + length) / 2;
  const along = (length - crownBase) / 2 + radius;
  const across = crownRadius + radius;
  if (along <= 0 || across <= 0) return [];
  const square = (distance / along) ** 2 - (distance / across) ** 2;
  const linear = (distance * middle) / along ** 2;
  const constant = (middle / along) ** 2 + (distance / across) ** 2 - 1;
  if (Math.abs(square) < 1e-12) return angles(constant / (2 * linear), 1);
  const root = linear ** 2 - square * constant;
  if (root < 0) return square < 0 ? [[0, 180]] : [];
  const low = (linear - Math.sqrt(root)) / square;
  const high = (linear + Math.sqrt(root)) / square;
  // Opening upwards the quadratic is below 0 between its roots, opening downwards outside them.
  return square > 0 ? angles(low, high) : [...angles(low, 1), ...angles(-1, high)];
}

function angles(from: number, to: number): readonly (readonly [number, number])[] {
  if (to < from || to < -1 || from > 1) return [];
  const [far, near] = [Math.acos(Math.max(-1, from)), Math.acos(Math.min(1, to))];
  return far > near ? [[near * DEGREES, far * DEGREES]] : [];
}

/** The lengths at which to look, with the share of falls that each stands for. Lengths too short to touch are left out. */
function lengths(body: Body, disc: Disc): readonly Readonly<{ length: number; share: number }>[] {
  const { height, lengthError } = body;
  if (lengthError === 0) return [{ length: height, share: 1 }];
  const spread = height * lengthError;
  const shortest = Math.max(0, height - FARTHEST * spread);
  const longest = height + FARTHEST * spread;
  const cuts = [...onsets(body, disc), body.crownBase, height - 2 * spread, height + 2 * spread].filter(
    (cut) => cut > shortest && cut < longest,
  );
  const ends = [shortest, ...cuts.sort((a, b) => a - b), longest];
  return ends.slice(1).flatMap((end, index) => {
    const start = ends[index] ?? shortest;
    const shareBelow = (length: number): number => below((length - height) / spread);
    const whole = shareBelow(end) - shareBelow(start);
    if (whole < 1e-12) return [];
    // Angles begin like a square root at an onset: points drawn close to both ends of a part leave no such corner.
    const points = NODES.map(({ at, weight }) => {
      const length = start + (end - start) * at * at * (3 - 2 * at);
      const density = Math.exp(-(((length - height) / spread) ** 2) / 2);
      return { length, share: weight * at * (1 - at) * density };
    });
    const sum = points.reduce((total, { share }) => total + share, 0);
    return points.map(({ length, share }) => ({ length, share: (share / sum) * whole }));
  });
}

/** At which lengths the crown begins to touch: with its tip, or earlier with its shoulder; and where the bole does. */
function onsets({ crownBase, crownRadius }: Body, { distance, radius }: Disc): readonly number[] {
  const across = crownRadius + radius;
  const tip = distance - radius;
  if (distance <= across || across <= 0) return [tip];
  // The quadratic has roots from where a² + (d²/R² − 1) P² ≥ d² − R², itself a quadratic in the length.
  const ratio = (distance / across) ** 2 - 1;
  const shift = radius - crownBase / 2;
  const square = (1 + ratio) / 4;
  const linear = crownBase / 2 + ratio * shift;
  const constant = crownBase ** 2 / 4 + ratio * shift ** 2 - (distance ** 2 - across ** 2);
  const root = linear ** 2 - 4 * square * constant;
  return root < 0 ? [tip] : [tip, (-linear + Math.sqrt(root)) / (2 * square)];
}

/** Points and weights of Gauss–Legendre quadrature on 0 to 1. */
export function gaussLegendre(count: number): readonly Readonly<{ at: number; weight: number }>[] {
  return Array.from({ length: count }, (_, index) => {
    let x = Math.cos((Math.PI * (index + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 50; step += 1) {
      let [now, before] = [1, 0];
      for (let degree = 1; degree <= count; degree += 1)
        [now, before] = [((2 * degree - 1) * x * now - (degree - 1) * before) / degree, now];
      slope = (count * (x * now - before)) / (x * x - 1);
      x -= now / slope;
    }
    return { at: (1 + x) / 2, weight: 1 / ((1 - x * x) * slope * slope) };
  });
}
