// The order of felling: how long a plan takes and how far from the best it can be, for groups of several sizes, beside one
// careful order picked stem by stem with nothing looked ahead (what a habit costs to compute).
import {
  buildModel,
  carefulGreedy,
  type OrderPlan,
  type OrderProblem,
  planOrder,
  replanOrder,
  seeded,
} from '../../src/felling/index.ts';
import { inventedGroup } from '../felling/order/woods.ts';
import { drawGroup } from '../felling/trial/groups.ts';
import { type BenchRow, interleaved } from './row.ts';

const groups = [1, 2, 3, 4];

/** Groups of `count` with 37 aims for each stem, of about 25 to 40 square metres a stem. */
function drawn(count: number): OrderProblem[] {
  return groups.map((seed) => inventedGroup(count, seed, { room: 20 + 5 * seed, step: 2.5 }));
}

export async function benchFelling(): Promise<BenchRow[]> {
  return [
    await inAll(12, 1),
    await inAll(16, 2),
    await inAll(30, 10),
    await inAll(60, 20),
    await planning(12, { seconds: 1 }),
    await planning(16, { seconds: 2 }),
    await planning(30, { seconds: 10, gap: 0.2 }),
    await planning(60, { seconds: 20, gap: 0.25 }),
    await replanning(),
  ];
}

/** From positions, diameters, heights and leans to the plan: the felling model and the order, in groups of the mapped plot. */
async function inAll(count: number, goal: number): Promise<BenchRow> {
  const drawn = groups.map((seed) => {
    const random = seeded(seed);
    for (let skip = 0; skip < 10; skip += 1) random();
    return drawGroup(random, seed, count).inputs;
  });
  const seconds = await interleaved(
    {
      ours: () => () => drawn.map((inputs) => planOrder(buildModel(inputs).problem)),
      bare: () => () => drawn.map((inputs) => greedyOf(buildModel(inputs).problem)),
    },
    1,
  );
  const [measured, baseline] = [(seconds.ours * 1000) / groups.length, (seconds.bare * 1000) / groups.length];
  return {
    what: `felling model and order of ${count} stems of the mapped plot, in all`,
    measured,
    unit: 'ms',
    against: 'the model and one careful order picked stem by stem',
    baseline,
    ratio: measured / baseline,
    goal: `< ${goal} s`,
    met: measured < 1000 * goal,
  };
}

async function planning(count: number, goal: { seconds: number; gap?: number }): Promise<BenchRow> {
  const problems = drawn(count);
  const plans: OrderPlan[] = [];
  const seconds = await interleaved(
    {
      ours: () => () => plans.splice(0, plans.length, ...problems.map(planOrder)),
      bare: () => () => problems.map(greedyOf),
    },
    goal.gap === undefined ? 3 : 1,
  );
  const [measured, baseline] = [(seconds.ours * 1000) / groups.length, (seconds.bare * 1000) / groups.length];
  const gaps = (level: 'hangUps' | 'loss') =>
    plans.map(({ levels }) => levels[level].gap).sort((a, b) => a - b);
  const middle = (sorted: readonly number[]): number => sorted[Math.floor(sorted.length / 2)] ?? 1;
  const worst = Math.max(middle(gaps('hangUps')), middle(gaps('loss')));
  const megabytes = Math.max(...plans.map(({ bytes }) => bytes)) / 1e6;
  const percent = (gap: number): string => `${(100 * gap).toFixed(1)} %`;
  return {
    what: `order of ${count} stems; median gap of hang-ups ${percent(middle(gaps('hangUps')))}, of loss ${percent(middle(gaps('loss')))}; tables ${megabytes.toFixed(0)} MB`,
    measured,
    unit: 'ms',
    against: 'one careful order picked stem by stem',
    baseline,
    ratio: measured / baseline,
    goal: `< ${goal.seconds} s, ${goal.gap === undefined ? 'proved' : `median gaps < ${percent(goal.gap)}`}`,
    met: measured < 1000 * goal.seconds && (goal.gap === undefined ? worst === 0 : worst < goal.gap),
  };
}

async function replanning(): Promise<BenchRow> {
  const problems = drawn(12);
  const fallen = problems.map((problem) => planOrder(problem).steps[0]?.stem ?? 0);
  const seconds = await interleaved(
    {
      ours: () => () => problems.map((problem, at) => replanOrder(problem, { down: [fallen[at] ?? 0] })),
      bare: () => () => problems.map(greedyOf),
    },
    3,
  );
  const [measured, baseline] = [(seconds.ours * 1000) / groups.length, (seconds.bare * 1000) / groups.length];
  return {
    what: 'order of 12 stems again after one fall',
    measured,
    unit: 'ms',
    against: 'one careful order of all 12 picked stem by stem',
    baseline,
    ratio: measured / baseline,
    goal: '< 300 ms',
    met: measured < 300,
  };
}

function greedyOf(problem: OrderProblem) {
  return carefulGreedy(problem, [...problem.stems.keys()]);
}
