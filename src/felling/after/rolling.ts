// What a stem can do once it lies across a slope: roll. Which falls can come to lie so, and what is then in the strip below them.
import { cells } from '../model/around.ts';
import type { Assumed } from '../model/assumptions.ts';
import { below, DEGREES, lengthChance } from '../model/fall.ts';
import type { GroundSlope, GroupInputs, Point } from '../model/inputs.ts';
import { rollsFrom } from '../stem/aims.ts';
import type { PlannedLay } from './crossings.ts';

/** Something in the strip straight down the slope from where a stem may lie across it. */
export type Below = Readonly<{
  what:
    | 'sapling'
    | 'patch'
    | 'leave tree'
    | 'stem'
    | 'people'
    | 'hazard'
    | 'structure'
    | 'road'
    | 'trail'
    | 'water'
    | 'power line'
    | 'property line';
  id: string;
  label: string;
  /** That the stem comes to lie across the slope with this below it. Of a patch: that anything of it is. Whether it then rolls nobody can tell. */
  chance: number;
}>;

/** One fall that can roll. Metres, degrees. */
export type Rolling = Readonly<{
  stem: string;
  label: string;
  /** That it comes to lie so far across the slope that it can roll. */
  chance: number;
  /** How far down the slope the strip is looked at. */
  reach: number;
  downhill: number;
  below: readonly Below[];
}>;

/** A thing as points with a radius: it is below a stem when any of them is. */
type Spot = Readonly<{
  what: Below['what'];
  id: string;
  label: string;
  radius: number;
  points: readonly Point[];
}>;

const LEAST = 0.01;
/** How finely the direction is looked at, in standard deviations, and how far. */
const STEP = 1 / 16;
const FARTHEST = 5;
/** Metres between the points of a line. */
const APART = 1;

/** The falls of a plan that can roll; none where the ground is not known to slope more than the assumption. */
export function rollingOf(
  falls: readonly PlannedLay[],
  inputs: GroupInputs,
  assumed: Assumed,
): readonly Rolling[] {
  const { slope } = inputs;
  if (slope === undefined || slope.percent <= assumed.rollSlope) return [];
  const around = spotsAround(inputs);
  return falls.flatMap((fall, at) => {
    const standing = falls.slice(at + 1).map(({ id }) => id);
    const up = new Set([...standing, ...inputs.stems.map(({ id }) => id)]);
    for (const { id } of falls.slice(0, at + 1)) up.delete(id);
    const spots = [...around, ...stemsStanding(inputs, up)];
    const rolling = rollingOfOne(fall, slope, spots, assumed);
    return rolling.chance < LEAST ? [] : [rolling];
  });
}

function rollingOfOne(
  fall: PlannedLay,
  slope: GroundSlope,
  spots: readonly Spot[],
  assumed: Assumed,
): Rolling {
  const reach = assumed.rollLengths * fall.body.height;
  const chances = spots.map(() => 0);
  let chance = 0;
  for (let deviations = -FARTHEST; deviations < FARTHEST; deviations += STEP) {
    const direction = fall.aim + (deviations + STEP / 2) * fall.directionError;
    if (!rollsFrom(direction, slope)) continue;
    const share = below(deviations + STEP) - below(deviations);
    chance += share;
    const long = strip(fall, direction, slope.aspect, reach);
    spots.forEach((spot, index) => {
      chances[index] = (chances[index] ?? 0) + share * long(spot);
    });
  }
  return {
    stem: fall.id,
    label: fall.label,
    chance,
    reach,
    downhill: slope.aspect,
    below: spots
      .map(({ what, id, label }, index) => ({ what, id, label, chance: chances[index] ?? 0 }))
      .filter((one) => one.chance >= LEAST)
      .sort((a, b) => b.chance - a.chance || (a.id < b.id ? -1 : 1)),
  };
}

/** For a stem that lies in some direction: the chance that it is long enough for the strip below it to hold a thing. */
function strip({ body, stump }: PlannedLay, direction: number, downhill: number, reach: number) {
  const [sine, cosine] = [Math.sin(direction / DEGREES), Math.cos(direction / DEGREES)];
  const [downX, downY] = [Math.sin(downhill / DEGREES), Math.cos(downhill / DEGREES)];
  const turned = sine * downY - cosine * downX;
  return ({ points, radius }: Spot): number =>
    points.reduce((most, { x, y }) => {
      const [east, north] = [x - stump.x, y - stump.y];
      const along = (east * downY - north * downX) / turned;
      const down = (sine * north - cosine * east) / turned;
      if (down < -radius || down > reach + radius || along < -radius) return most;
      return Math.max(most, lengthChance(body, along - radius));
    }, 0);
}

function spotsAround({
  saplings = [],
  patches = [],
  leaveTrees = [],
  workPlaces = [],
  hazards = [],
  lines = [],
}: GroupInputs): Spot[] {
  const point =
    (what: Below['what'], radius: number) =>
    ({ id, label, x, y }: Point & { id: string; label: string }) => ({
      what,
      id,
      label,
      radius,
      points: [{ x, y }],
    });
  return [
    ...workPlaces.map(point('people', 0)),
    ...hazards.map(point('hazard', 0)),
    ...saplings.map((one) => point('sapling', one.radius ?? 0)(one)),
    ...patches.map(({ id, label, ring }) => ({
      what: 'patch' as const,
      id,
      label,
      radius: 0,
      points: cells(ring, APART),
    })),
    ...leaveTrees.map((one) => point('leave tree', (one.dbh ?? 0) / 2)(one)),
    ...lines.map(({ id, label, kind, points }) => ({
      what: kind,
      id,
      label,
      radius: 0,
      points: closely(points),
    })),
  ];
}

function stemsStanding({ stems }: GroupInputs, up: ReadonlySet<string>): Spot[] {
  return stems
    .filter(({ id }) => up.has(id))
    .map(({ id, label, x, y, dbh = 0 }) => ({
      what: 'stem',
      id,
      label,
      radius: dbh / 2,
      points: [{ x, y }],
    }));
}

/** Points along a line, about a metre apart. */
function closely(points: readonly Point[]): Point[] {
  return points.flatMap((to, index) => {
    const from = points[index - 1];
    if (from === undefined) return [to];
    const count = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / APART));
    return Array.from({ length: count }, (_, step) => ({
      x: from.x + ((to.x - from.x) * (step + 1)) / count,
      y: from.y + ((to.y - from.y) * (step + 1)) / count,
    }));
  });
}
