// Felling a group by a sequence, fall by fall, with what is true of the stems. It shares nothing with the model that plans: a
// direction and a length are drawn, and what they reach is looked up.
import { type DrawnGroup, normal, type TrueStem } from './groups.ts';

/** A fall as it was meant: the index of the stem and the azimuth. */
export type Meant = Readonly<{ stem: number; aim: number }>;

/** Counts over one felling of a group. A sapling is lost at most once; half of those under a crown are lost. */
export type Outcome = { hungUp: number; saplings: number; struck: number; scraped: number };

type Spot = Readonly<{ x: number; y: number }>;
type Lay = Readonly<{ from: Spot; direction: number; length: number; halfWidth: number; truth: TrueStem }>;

const degrees = 180 / Math.PI;

/**
 * @param luck random numbers of this felling, by stem, so that a stem has the same errors of direction and length whatever the sequence
 */
export function fell(
  group: DrawnGroup,
  sequence: readonly Meant[],
  luck: (stem: number) => () => number,
): Outcome {
  const { stems, saplings = [], leaveTrees = [] } = group.inputs;
  const outcome: Outcome = { hungUp: 0, saplings: 0, struck: 0, scraped: 0 };
  const standing = new Set(stems.keys());
  const lost = new Set<number>();
  for (const { stem, aim } of sequence) {
    const random = luck(stem);
    standing.delete(stem);
    const [seen, truth] = [stems[stem], group.truth[stem]];
    if (seen === undefined || truth === undefined) continue;
    const side = Math.sin((truth.leanAzimuth - aim) / degrees) * truth.lean;
    // Part of the lean across the aim is not held by the hinge. The share is invented.
    const pull = 40 * (side / truth.height);
    const lay: Lay = {
      from: seen,
      direction: aim + pull + truth.sigma * normal(random),
      length: truth.height * (1 + 0.05 * normal(random)),
      halfWidth: (seen.dbh ?? 0) / 2,
      truth,
    };
    // How readily boles and crowns hold differs from tree to tree. Invented round the model's own guesses.
    const [bole, crown] = [0.35 + 0.3 * random(), 0.05 + 0.1 * random()];
    const meets = (spot: Spot, dbh: number, other: TrueStem): 'bole' | 'crown' | undefined => {
      const { along, across } = placeOf(lay, spot);
      if (along < 0 || along > lay.length + dbh / 2) return undefined;
      if (across <= lay.halfWidth + dbh / 2) return 'bole';
      const overlap = 0.5 * (truth.crownRadius + other.crownRadius);
      return along >= 0.4 * lay.length && across <= overlap ? 'crown' : undefined;
    };
    let held = false;
    const holds = (met: 'bole' | 'crown' | undefined): void => {
      if (met !== undefined && random() < (met === 'bole' ? bole : crown)) held = true;
    };
    for (const other of standing) {
      const [tree, its] = [stems[other], group.truth[other]];
      if (tree && its && (tree.dbh ?? 0) >= 0.35 * (seen.dbh ?? 0)) holds(meets(tree, tree.dbh ?? 0, its));
    }
    leaveTrees.forEach((tree, number) => {
      const its = group.trueLeave[number];
      const met = its && meets(tree, tree.dbh ?? 0, its);
      if (met === 'bole') outcome.struck += 1;
      if (met === 'crown') outcome.scraped += 1;
      if ((tree.dbh ?? 0) >= 0.35 * (seen.dbh ?? 0)) holds(met);
    });
    if (held) outcome.hungUp += 1;
    saplings.forEach((spot, number) => {
      if (lost.has(number) || !isUnder(lay, spot, random)) return;
      lost.add(number);
      outcome.saplings += 1;
    });
  }
  return outcome;
}

function placeOf({ from, direction }: Lay, { x, y }: Spot): { along: number; across: number } {
  const [east, north] = [x - from.x, y - from.y];
  const [sin, cos] = [Math.sin(direction / degrees), Math.cos(direction / degrees)];
  return { along: east * sin + north * cos, across: Math.abs(east * cos - north * sin) };
}

/** Under the bole for certain; within the outline of the crown with half a chance. */
function isUnder(lay: Lay, spot: Spot, random: () => number): boolean {
  const { along, across } = placeOf(lay, spot);
  if (along < 0 || along > lay.length) return false;
  if (across <= lay.halfWidth) return true;
  const half = (lay.length - lay.truth.crownBase) / 2;
  const off = (along - (lay.truth.crownBase + half)) / half;
  return off * off + (across / lay.truth.crownRadius) ** 2 <= 1 && random() < 0.5;
}
