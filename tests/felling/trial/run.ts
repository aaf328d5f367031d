// The trial: plans for groups of the mapped plot and four habits, each felled many times in a wood whose leans, heights, crowns
// and errors the planner does not know. Writes docs/felling-trial.md. No test: it says how good the planner is, and is read.
//   npx tsx tests/felling/trial/run.ts
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../../../cli/prepare.mjs';
import { credit } from '../../../fixtures/scbi/census.ts';
import {
  bestOfRandom,
  buildModel,
  carefulGreedy,
  judged,
  type OrderPlan,
  planOrder,
  type SequenceFall,
  type Standing,
  seeded,
  toTheOpenSide,
  withTheLean,
} from '../../../src/felling/index.ts';
import { drawGroup, heightCurve } from './groups.ts';
import { trialPage } from './page.ts';
import { fell, type Outcome } from './simulate.ts';

const groups = 32;
const fellings = 200;
const seed = 20_131;

/** Means over the fellings of one group, by way of working. */
export type GroupResult = Readonly<{
  size: number;
  felled: number;
  plan: Pick<OrderPlan, 'totals' | 'exact'>;
  means: Readonly<Record<string, Outcome>>;
  overLimit: Readonly<Record<string, number>>;
}>;

function runGroup(number: number): GroupResult {
  const random = seeded(seed + 7 * number);
  for (let skip = 0; skip < 10; skip += 1) random();
  const group = drawGroup(random, number);
  const { problem } = buildModel(group.inputs);
  const plan = planOrder(problem);
  const felled = plan.steps.map(({ stem }) => stem);
  const at = group.inputs.stems.map(({ x, y, lean }): Standing => ({ x, y, lean: lean?.azimuth ?? 0 }));
  const ways: Record<string, readonly SequenceFall[]> = {
    plan: plan.steps,
    'plan with a tolerance of 0.25': planOrder({ ...problem, tolerance: 0.25 }).steps,
    'with the lean': withTheLean(problem, at, felled),
    'to the open side': toTheOpenSide(problem, at, felled),
    'best of 1,000 random': bestOfRandom(problem, felled, number),
    'careful greedy': carefulGreedy(problem, felled),
  };
  const means = Object.fromEntries(
    Object.entries(ways).map(([way, sequence]) => {
      const meant = sequence.map(({ stem, choice }) => ({
        stem,
        aim: problem.stems[stem]?.choices[choice]?.aim ?? 0,
      }));
      const sum: Outcome = { hungUp: 0, saplings: 0, struck: 0, scraped: 0 };
      for (let felling = 0; felling < fellings; felling += 1) {
        const luck = (stem: number) => seeded(number * 1_000_003 + felling * 1009 + stem * 31);
        const outcome = fell(group, meant, luck);
        for (const what of ['hungUp', 'saplings', 'struck', 'scraped'] as const)
          sum[what] += outcome[what] / fellings;
      }
      return [way, sum];
    }),
  );
  const overLimit = Object.fromEntries(
    Object.entries(ways).map(([way, sequence]) => [way, judged(problem, sequence).overLimit]),
  );
  console.log(`group ${number}: ${felled.length} of ${at.length} stems felled`);
  return { size: at.length, felled: felled.length, plan, means, overLimit };
}

const results = Array.from({ length: groups }, (_, number) => runGroup(number + 1));
writeFileSync(
  join(root, 'docs/felling-trial.md'),
  trialPage(results, { fellings, seed, credit, curve: heightCurve() }),
);
