// Groups drawn from the mapped plot: stems, saplings and leave trees where they stand, with their diameters; heights by a curve
// through the heights measured on the plot. Lean and decay are invented, for nobody measured them.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { liveStems } from '../../../fixtures/scbi/census.ts';
import type { GroupInputs, GroupStem } from '../../../src/felling/index.ts';

/** What is true of a stem and hidden from the planner. Metres, degrees. */
export type TrueStem = Readonly<{
  height: number;
  crownBase: number;
  crownRadius: number;
  lean: number;
  leanAzimuth: number;
  /** Standard deviation of the direction in a fall that is aimed with the lean. */
  sigma: number;
}>;

export type DrawnGroup = Readonly<{
  inputs: GroupInputs;
  truth: readonly TrueStem[];
  trueLeave: readonly TrueStem[];
}>;

type Tree = Readonly<{ id: string; x: number; y: number; dbh: number }>;

/** The window of the census, metres. */
const window = { west: 200, east: 260, south: 200, north: 280 } as const;
/** Between a tree at the edge of the window and its image, metres at least. */
const gap = 1;
/** How far round the group trees count, metres. */
const reach = 35;

/** ln(height) = a + b ln(DBH), metres and centimetres, by least squares, with the standard deviation of what is left. */
export function heightCurve(): Readonly<{ a: number; b: number; spread: number; count: number }> {
  const path = fileURLToPath(new URL('../../../fixtures/scbi/tree_heights.csv', import.meta.url));
  const rows = parse<Record<string, string>>(readFileSync(path, 'utf8'), { columns: true });
  const points = rows.flatMap((row) => {
    const dbh = ['DBH.with.height.cm', 'DBH.2013.cm', 'DBH.2018.cm', 'DBH.2008.cm']
      .map((name) => Number(row[name]))
      .find((value) => value > 0);
    const height = Number(row['height.m']);
    return dbh !== undefined && dbh >= 5 && height > 1.3 ? [[Math.log(dbh), Math.log(height)] as const] : [];
  });
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, one) => sum + one, 0) / values.length;
  const [mx, my] = [mean(points.map(([x]) => x)), mean(points.map(([, y]) => y))];
  const b =
    mean(points.map(([x, y]) => (x - mx) * (y - my))) / mean(points.map(([x]) => (x - mx) * (x - mx)));
  const a = my - b * mx;
  const spread = Math.sqrt(mean(points.map(([x, y]) => (y - a - b * x) ** 2)));
  return { a, b, spread, count: points.length };
}

/** The live stems of the window and their mirror images over its edges, so that no group stands at an end of the wood. */
function wood(): Tree[] {
  const trees = liveStems().map(({ tag, stemTag, gx, gy, dbh_mm }) => ({
    id: `${tag}-${stemTag}`,
    x: Number(gx),
    y: Number(gy),
    dbh: Number(dbh_mm) / 1000,
  }));
  const across = [
    { of: (x: number) => x, name: '' },
    { of: (x: number) => 2 * window.west - gap - x, name: 'w' },
    { of: (x: number) => 2 * window.east + gap - x, name: 'e' },
  ];
  const along = [
    { of: (y: number) => y, name: '' },
    { of: (y: number) => 2 * window.south - gap - y, name: 's' },
    { of: (y: number) => 2 * window.north + gap - y, name: 'n' },
  ];
  return across.flatMap((east) =>
    along.flatMap((north) =>
      trees.map((tree) => ({
        ...tree,
        id: `${tree.id}${east.name}${north.name}`,
        x: east.of(tree.x),
        y: north.of(tree.y),
      })),
    ),
  );
}

/** Of stems that grow from one stump, or within half a metre, the thickest: the others go with it. */
function apart(trees: Tree[]): Tree[] {
  const kept: Tree[] = [];
  for (const tree of trees.toSorted((a, b) => b.dbh - a.dbh)) {
    const room = (other: Tree): number => Math.hypot(other.x - tree.x, other.y - tree.y) - other.dbh / 2;
    if (kept.every((other) => room(other) > 0.5)) kept.push(tree);
  }
  return kept;
}

/** Normal deviates by the polar transform of two uniform ones (G. E. P. Box and M. E. Muller, 1958, from memory). */
export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/**
 * A group of the larger stems nearest to a point drawn in the window, with all that stands round it.
 *
 * @param size how many; drawn from 8 to 12 when left out
 */
export function drawGroup(random: () => number, number: number, size?: number): DrawnGroup {
  const curve = heightCurve();
  const middle = {
    x: window.west + random() * (window.east - window.west),
    y: window.south + random() * (window.north - window.south),
  };
  const away = ({ x, y }: Tree): number => Math.hypot(x - middle.x, y - middle.y);
  const near = apart(wood().filter((tree) => away(tree) <= reach)).sort((a, b) => away(a) - away(b));
  const tall = near.filter(({ dbh }) => dbh >= 0.12);
  const count = size ?? 8 + Math.floor(random() * 5);
  const height = ({ dbh }: Tree): number => Math.exp(curve.a + curve.b * Math.log(100 * dbh));
  const trueOf = (tree: Tree, lean: number, leanAzimuth: number): TrueStem => {
    const trueHeight = height(tree) * Math.exp(curve.spread * normal(random));
    return {
      height: trueHeight,
      crownBase: (0.45 + 0.2 * random()) * trueHeight,
      crownRadius: (0.75 + 7 * tree.dbh) * Math.exp(0.2 * normal(random)),
      lean,
      leanAzimuth,
      sigma: 4 + 5 * random(),
    };
  };
  const drawn = tall.slice(0, count).map((tree) => {
    const truth = trueOf(tree, Math.abs(normal(random)) * 0.03 * height(tree), 360 * random());
    const decayed = random() < 0.25;
    const seen: GroupStem = {
      id: tree.id,
      label: tree.id,
      x: tree.x,
      y: tree.y,
      dbh: tree.dbh,
      height: height(tree),
      heightEstimated: true,
      lean: {
        amount: Math.abs(truth.lean + 0.3 * normal(random)),
        azimuth: (truth.leanAzimuth + 15 * normal(random) + 360) % 360,
        reference: 'true',
      },
      ...(decayed ? { decayed: true } : {}),
    };
    return { seen, truth: decayed ? { ...truth, sigma: 1.4 * truth.sigma } : truth };
  });
  const leave = tall.slice(count);
  return {
    inputs: {
      id: `G${number}`,
      label: `G${number}`,
      stems: drawn.map(({ seen }) => seen),
      saplings: near.filter(({ dbh }) => dbh < 0.04).map(({ id, x, y }) => ({ id, label: id, x, y })),
      leaveTrees: leave.map(({ id, x, y, dbh }) => ({ id, label: id, x, y, dbh })),
      tools: { wedges: true },
    },
    truth: drawn.map(({ truth }) => truth),
    trueLeave: leave.map((tree) => trueOf(tree, 0, 0)),
  };
}
