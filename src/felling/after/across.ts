// How likely a falling stem comes to lie across a line on the ground, and where on its length: the directions that meet the line
// are a sector seen from the stump, and for each the stem has to be long enough.
import { seen } from '../model/around.ts';
import { gaussLegendre } from '../model/crown.ts';
import { type Body, DEGREES, type Fall, lengthChance, turn } from '../model/fall.ts';
import type { Point } from '../model/inputs.ts';

/** A stem on its way down. */
export type Falling = Fall & Readonly<{ body: Body; stump: Point }>;

/** A piece of a line on the ground: a stem that lies there, from its butt to its tip. */
export type LyingLine = Readonly<{ from: Point; to: Point }>;

/** Metres; the means are over the falls that come to lie across, 0 where none does. */
export type Across = Readonly<{
  chance: number;
  /** How far from its own stump the falling stem lies across, on average. */
  out: number;
  /** How far along the line, from its beginning, on average. */
  along: number;
}>;

const NEVER: Across = { chance: 0, out: 0, along: 0 };
const NODES = /* @__PURE__ */ gaussLegendre(4);
const LENGTHS = /* @__PURE__ */ gaussLegendre(9);
/** All directions in one part, or in two. */
const DIRECTIONS = /* @__PURE__ */ gaussLegendre(24);
const IN_TWO = /* @__PURE__ */ gaussLegendre(16);
/** Standard deviations that are integrated over (6e-7 is left out), and how wide one part of that is at most. */
const FARTHEST = 5;
const PART = 1.25;
/** Lays that hold a smaller share are left out. */
const NOTHING = 1e-6;

/** The chance of lying across a line that is where it is, met no farther out than `within`. */
export function acrossLine(falling: Falling, line: LyingLine, within = Number.POSITIVE_INFINITY): Across {
  const { aim, directionError, body, stump } = falling;
  const longest = body.height * (1 + FARTHEST * body.lengthError);
  const piece = clipped(stump, line, Math.min(within, longest));
  if (piece === undefined) return NEVER;
  const [start, end] = [seen(stump, piece.from), seen(stump, piece.to)];
  const span = turn(end.bearing - start.bearing);
  const first = turn((span < 0 ? end : start).bearing - aim);
  const low = Math.max(first, -FARTHEST * directionError);
  const high = Math.min(first + Math.abs(span), FARTHEST * directionError);
  if (!(high > low)) return NEVER;
  const outAt = meets(stump, line);
  const parts = Math.ceil((high - low) / (PART * directionError));
  const width = (high - low) / parts;
  let [chance, out, along] = [0, 0, 0];
  for (let part = 0; part < parts; part += 1)
    for (const { at, weight } of NODES) {
      const off = low + (part + at) * width;
      const met = outAt(aim + off);
      const density = Math.exp(-((off / directionError) ** 2) / 2) * weight * lengthChance(body, met.out);
      // Along the line itself it is met nowhere, infinitely far out.
      if (!(density > 0)) continue;
      chance += density;
      out += density * met.out;
      along += density * met.along;
    }
  if (chance === 0) return NEVER;
  const scale = width / (directionError * Math.sqrt(2 * Math.PI));
  return { chance: Math.min(1, chance * scale), out: out / chance, along: along / chance };
}

/**
 * Where a stem may lie that has fallen already: lines with the share of falls that each stands for.
 *
 * @param from the stump of the stem that falls next: whether the other lies to the left or to the right of it makes a jump, so
 *   that the directions are cut there
 */
export function layings(
  { aim, directionError, body, stump }: Falling,
  from: Point,
  most = Number.POSITIVE_INFINITY,
): readonly (LyingLine & { share: number })[] {
  // A piece that ends before the shortest length does not depend on it.
  const [low, high] = body.height * (1 - 4 * body.lengthError) >= most ? [0, 0] : [-4, 4];
  const lengths = spread(LENGTHS, body.lengthError === 0 ? [0, 0] : [low, high]).map(({ at, share }) => ({
    length: Math.min(most, Math.max(0, body.height * (1 + at * body.lengthError))),
    share,
  }));
  const cut = turn(seen(stump, from).bearing - aim) / directionError;
  const parts =
    Math.abs(cut) < FARTHEST
      ? spread(IN_TWO, [-FARTHEST, cut, FARTHEST])
      : spread(DIRECTIONS, [-FARTHEST, FARTHEST]);
  return parts.flatMap(({ at, share }) => {
    const direction = (aim + at * directionError) / DEGREES;
    return lengths
      .filter((one) => share * one.share > NOTHING)
      .map(({ length, share: part }) => ({
        share: share * part,
        from: stump,
        to: { x: stump.x + length * Math.sin(direction), y: stump.y + length * Math.cos(direction) },
      }));
  });
}

/** The chance of lying across a stem that fell before, wherever that came to lie. */
export function acrossStem(
  falling: Falling,
  lying: readonly (LyingLine & { share: number })[],
  within?: number,
): Across {
  let [chance, out, along] = [0, 0, 0];
  for (const { share, ...line } of lying) {
    const met = acrossLine(falling, line, within);
    chance += share * met.chance;
    out += share * met.chance * met.out;
    along += share * met.chance * met.along;
  }
  return chance === 0 ? NEVER : { chance, out: out / chance, along: along / chance };
}

/** Points of a standard normal distribution within parts of it, with their shares; all of it at 0 where both ends are 0. */
function spread(
  nodes: typeof NODES,
  ends: readonly number[],
): readonly Readonly<{ at: number; share: number }>[] {
  if (ends.every((end) => end === 0)) return [{ at: 0, share: 1 }];
  const points = ends.slice(1).flatMap((end, index) => {
    const start = ends[index] ?? end;
    return nodes.map(({ at, weight }) => {
      const deviations = start + at * (end - start);
      return { at: deviations, share: weight * (end - start) * Math.exp((-deviations * deviations) / 2) };
    });
  });
  const sum = points.reduce((total, { share }) => total + share, 0);
  return points.map(({ at, share }) => ({ at, share: share / sum }));
}

/** Where a ray in some direction meets the line: how far out, and how far along the line. */
function meets({ x, y }: Point, { from, to }: LyingLine) {
  const [east, north] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(east, north);
  const [startX, startY] = [from.x - x, from.y - y];
  return (direction: number): { out: number; along: number } => {
    const [sine, cosine] = [Math.sin(direction / DEGREES), Math.cos(direction / DEGREES)];
    const turned = sine * north - cosine * east;
    return {
      out: (startX * north - startY * east) / turned,
      along: ((startX * cosine - startY * sine) / turned) * length,
    };
  };
}

/** The part of a line that lies within a distance of a point. */
function clipped({ x, y }: Point, { from, to }: LyingLine, within: number): LyingLine | undefined {
  const [east, north] = [to.x - from.x, to.y - from.y];
  const square = east * east + north * north;
  if (square === 0) return undefined;
  const [startX, startY] = [from.x - x, from.y - y];
  const half = (startX * east + startY * north) / square;
  const root = half * half - (startX * startX + startY * startY - within * within) / square;
  if (!(root > 0)) return undefined;
  const [low, high] = [Math.max(0, -half - Math.sqrt(root)), Math.min(1, -half + Math.sqrt(root))];
  if (high <= low) return undefined;
  const at = (part: number): Point => ({ x: from.x + part * east, y: from.y + part * north });
  return { from: at(low), to: at(high) };
}
