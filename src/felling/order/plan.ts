// From a group to a plan: what has to be set aside, then the order and the aims of the rest.

import { FellingError } from '../error.ts';
import { setAside } from './aside.ts';
import { checkProblem } from './check.ts';
import { bestPlan } from './exact.ts';
import { searchedPlan } from './large.ts';
import { stepsOf } from './others.ts';
import { waitsOf } from './precedence.ts';
import type { OrderProblem } from './problem.ts';
import { fellable } from './reachable.ts';
import type { Level, OrderPlan } from './result.ts';
import { tableLimit } from './tables.ts';
import { partOf, type Task, taskOf } from './task.ts';

/**
 * The order in which to fell a group and the aim of every stem. In this order of weight: as few stems set aside as can be
 * without a fall over the limit; the least sum of hang-up chances; the least loss within the tolerance of that sum.
 * Exact for up to 16 stems to fell; for more a search, with the gap of each level. The same problem gives the same plan.
 *
 * A plan computes consequences; it never says that a fall is without danger.
 *
 * @throws FellingError where the problem contradicts itself, needs one stem felled onto another, or no order keeps a settled place
 */
export function planOrder(problem: OrderProblem): OrderPlan {
  checkProblem(problem);
  const { task, stemOf } = taskOf(problem, waitsOf(problem));
  const bumpers = Uint8Array.from(stemOf, (stem) => (problem.last.includes(stem) ? 1 : 0));
  const felled = fellable(task, bumpers);
  const standing = felled.map((falls) => 1 - falls);
  const kept = [...felled.keys()].filter((stem) => felled[stem] === 1);
  checkPlaces(task, kept, problem, stemOf);
  const part = partOf(bumpersLast(task, bumpers, kept), kept, standing);
  const isSmall = kept.length <= tableLimit;
  const found = isSmall ? bestPlan(part, problem.tolerance) : searchedPlan(part, problem.tolerance);
  if (found === undefined) throw noOrder(problem, isSmall);
  const steps = stepsOf(
    problem,
    part,
    found.falls,
    kept.map((stem) => stemOf[stem] ?? 0),
  );
  const sum = (of: (step: (typeof steps)[number]) => number): number =>
    steps.reduce((all, step) => all + of(step), 0);
  const loss = sum((step) => step.loss);
  const hangUpBound = 'hangUpBound' in found ? Number(found.hangUpBound) : found.leastHangUps;
  const levels = { hangUps: levelOf(found.leastHangUps, hangUpBound), loss: levelOf(loss, found.lossBound) };
  return {
    steps,
    aside: setAside(problem, task, standing, stemOf),
    totals: {
      hangUps: sum(({ hangUp }) => hangUp),
      loss,
      without: steps.reduce((chance, { hangUp }) => chance * (1 - hangUp), 1),
      highest: steps.reduce((highest, { hangUp }) => Math.max(highest, hangUp), 0),
    },
    levels,
    exact: levels.hangUps.gap === 0 && levels.loss.gap === 0,
    bytes: found.bytes,
  };
}

/** A sum proved to within rounding is proved. */
function levelOf(found: number, below: number): Level {
  const bound = found - below <= 1e-9 ? found : below;
  return { found, bound, gap: found === 0 ? 0 : (found - bound) / found };
}

function bumpersLast(task: Task, bumpers: Uint8Array, kept: readonly number[]): Task {
  const others = kept.filter((stem) => bumpers[stem] === 0);
  return {
    ...task,
    waits: task.waits.map((own, stem) => (bumpers[stem] === 1 ? [...new Set([...own, ...others])] : own)),
  };
}

function checkPlaces(
  task: Task,
  kept: readonly number[],
  { stems }: OrderProblem,
  stemOf: readonly number[],
): void {
  for (const stem of kept) {
    const place = task.places[stem];
    const id = stems[stemOf[stem] ?? 0]?.id ?? '';
    if (place !== undefined && place >= kept.length)
      throw new FellingError(
        'fixed',
        String(place),
        `The stem ${id} is settled at place ${place + 1}, but only ${kept.length} can be felled within the limit.`,
        'Give it an earlier place.',
      );
  }
}

function noOrder({ stems, fixed = [] }: OrderProblem, isProved: boolean): FellingError {
  const settled = fixed
    .filter(({ place }) => place !== undefined)
    .map(({ stem, place }) => `${stems[stem]?.id} at ${Number(place) + 1}`)
    .join(', ');
  return new FellingError(
    'fixed',
    settled,
    isProved
      ? `No order within the limit keeps the settled places (${settled}).`
      : `The search met no order within the limit that keeps the settled places (${settled}).`,
    'Take one of them back, or say with "before" what must come before what.',
  );
}
