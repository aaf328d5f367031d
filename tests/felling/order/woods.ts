// Invented groups of stems for trying out the search: a plain disc model of boles and crowns with no error in length,
// so that the search can be tried without the felling model. Nothing here is measured.
import type { Choice, OrderProblem, Segment } from '../../../src/felling/index.ts';
import { seeded } from '../../../src/felling/index.ts';

type Tree = Readonly<{
  x: number;
  y: number;
  height: number;
  bole: number;
  crown: number;
  lean: number;
  /** Standard deviation of the direction, degrees. */
  sigma: number;
}>;
type Sapling = Readonly<{ x: number; y: number }>;

/** How far round the patch leave trees stand, metres. */
const belt = 12;
const degrees = 180 / Math.PI;

/** Normal distribution function: Abramowitz and Stegun 1964, formula 26.2.17, error below 7.5e-8 (from memory). */
function phi(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}

function toHalfCircle(angle: number): number {
  return ((((angle + 180) % 360) + 360) % 360) - 180;
}

/**
 * A group in a patch with about `room` square metres for each stem, each with aims every 5° within 45° of its lean.
 */
export function inventedGroup(
  count: number,
  seed: number,
  { room = 30, saplings = 3, step = 5 } = {},
): OrderProblem {
  const random = seeded(seed);
  for (let skip = 0; skip < 10; skip += 1) random();
  const side = Math.sqrt(room * count);
  const treeIn = (width: number, outside: number): Tree => {
    const size = random();
    return {
      x: random() * width - outside,
      y: random() * width - outside,
      height: 14 + 12 * size,
      bole: 0.08 + 0.2 * size,
      crown: 1.2 + 2.5 * size,
      lean: random() * 360,
      sigma: 6 + 8 * random(),
    };
  };
  const trees = Array.from({ length: count }, () => treeIn(side, 0));
  // Leave trees all round the patch; they stand whatever is felled.
  const leave = Array.from({ length: 2 * count }, () => treeIn(side + 2 * belt, belt)).filter(
    ({ x, y }) => Math.min(x, y) < 0 || Math.max(x, y) > side,
  );
  const young = Array.from({ length: saplings * count }, () => ({
    x: (random() * 1.4 - 0.2) * side,
    y: (random() * 1.4 - 0.2) * side,
  }));
  return {
    stems: trees.map((tree, stem) => ({
      id: `S${String(stem).padStart(3, '0')}`,
      choices: Array.from({ length: 90 / step + 1 }, (_, number) =>
        choiceOf(tree, (tree.lean - 45 + number * step + 360) % 360, trees, leave, young),
      ),
    })),
    before: [],
    last: [],
    limit: 0.25,
    tolerance: 0.05,
  };
}

function choiceOf(
  tree: Tree,
  aim: number,
  trees: readonly Tree[],
  leave: readonly Tree[],
  young: readonly Sapling[],
): Choice {
  return { aim, loss: lossOf(tree, aim, young), segments: segmentsOf(tree, aim, trees, leave) };
}

function lossOf(tree: Tree, aim: number, young: readonly Sapling[]): number {
  let loss = 0;
  for (const { x, y } of young) {
    const distance = Math.hypot(x - tree.x, y - tree.y);
    if (distance > tree.height || distance < 0.3) continue;
    const off = toHalfCircle(Math.atan2(x - tree.x, y - tree.y) * degrees - aim);
    const within = (width: number): number => {
      const half = Math.asin(Math.min(1, width / distance)) * degrees;
      return phi((off + half) / tree.sigma) - phi((off - half) / tree.sigma);
    };
    const bole = within(tree.bole);
    loss += distance > 0.55 * tree.height ? bole + 0.5 * (within(tree.crown) - bole) : bole;
  }
  return Math.max(0, loss);
}

function segmentsOf(tree: Tree, aim: number, trees: readonly Tree[], leave: readonly Tree[]): Segment[] {
  const sectors = [...trees, ...leave].flatMap((other, stem) => {
    const distance = Math.hypot(other.x - tree.x, other.y - tree.y);
    if (other === tree || distance > tree.height) return [];
    const off = toHalfCircle(Math.atan2(other.x - tree.x, other.y - tree.y) * degrees - aim);
    if (Math.abs(off) > 90) return [];
    const bole = Math.asin(Math.min(1, (tree.bole + other.bole) / distance)) * degrees;
    const crown = Math.asin(Math.min(1, (0.5 * (tree.crown + other.crown)) / distance)) * degrees;
    return [{ stem, off, bole, crown: Math.max(bole, Math.min(30, crown)) }];
  });
  const edges = [
    ...new Set([
      -90,
      90,
      ...sectors.flatMap(({ off, bole, crown }) => [off - crown, off - bole, off + bole, off + crown]),
    ]),
  ]
    .filter((edge) => Math.abs(edge) <= 90)
    .sort((a, b) => a - b);
  return edges.slice(1).flatMap((to, number): Segment[] => {
    const from = edges[number] ?? to;
    const weight = phi(to / tree.sigma) - phi(from / tree.sigma);
    if (weight < 1e-9) return [];
    const middle = (from + to) / 2;
    const reached = sectors
      .filter(({ off, crown }) => Math.abs(middle - off) <= crown)
      .map(({ stem, off, bole }) => ({ stem, survival: Math.abs(middle - off) <= bole ? 0.5 : 0.9 }));
    const holds = reached.filter(({ stem }) => stem < trees.length);
    const always = reached
      .filter(({ stem }) => stem >= trees.length)
      .reduce((product, { survival }) => product * survival, 1);
    return [{ weight, always, holds }];
  });
}
