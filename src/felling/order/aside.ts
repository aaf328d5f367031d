// Why a stem is set aside, in a sentence, with the best of its aims all the same, so that it is seen that none is good enough.
import type { OrderProblem } from './problem.ts';
import type { SetAside } from './result.ts';
import { hangUpOf, type Task } from './task.ts';

/**
 * @param standing by stem of the task: 1 for what is set aside
 * @param stemOf which stem of the problem each stem of the task is
 */
export function setAside(
  problem: OrderProblem,
  task: Task,
  standing: Uint8Array,
  stemOf: readonly number[],
): SetAside[] {
  return stemOf.flatMap((stem, number) =>
    standing[number] === 1 ? [explained(problem, task, standing, stemOf, number, stem)] : [],
  );
}

function explained(
  { stems, limit }: OrderProblem,
  task: Task,
  standing: Uint8Array,
  stemOf: readonly number[],
  number: number,
  stem: number,
): SetAside {
  const id = stems[stem]?.id ?? '';
  const nameOf = (other: number): string => stems[stemOf[other] ?? 0]?.id ?? '';
  const best = bestAim(task, number, standing);
  if (best === undefined)
    return {
      stem,
      id,
      reason: 'no-aim',
      because: `${id} stays: none of the directions that it could be aimed in can be taken.`,
      causes: [],
    };
  const { option, hangUp } = best;
  const aim = stems[stem]?.choices[option.choice]?.aim ?? 0;
  const alone = bestAim(task, number, new Uint8Array(standing.length))?.hangUp ?? hangUp;
  const shared = {
    stem,
    id,
    best: { choice: option.choice, aim, hangUp, loss: option.loss },
    alone,
  };
  const awaited = (task.waits[number] ?? []).filter((other) => standing[other] === 1);
  if (awaited.length > 0)
    return {
      ...shared,
      reason: 'waits',
      because: `${id} stays: it has to wait for ${listed(awaited.map(nameOf))}, set aside as standing.`,
      causes: awaited.map((other) => stemOf[other] ?? 0),
    };
  const causes = without(task, number, standing);
  const cure =
    causes.length > 0
      ? `It would come within the limit if ${listed(causes.map(nameOf), 'or')} were down, but that stays too.`
      : alone <= limit
        ? 'It would come within the limit if more of what is set aside were down.'
        : `Even with the rest of the group down it is ${percent(alone)}.`;
  return {
    ...shared,
    reason: 'over-limit',
    because: `${id} stays: every aim is over the limit of ${percent(limit)} for a hang-up; the lowest, ${aim.toFixed(1)}°, has ${percent(hangUp)}. ${cure}`,
    causes: causes.map((other) => stemOf[other] ?? 0),
  };
}

function bestAim({ options }: Task, stem: number, standing: Uint8Array) {
  const others = standing.slice();
  others[stem] = 0;
  return (options[stem] ?? [])
    .map((option) => ({ option, hangUp: hangUpOf(option, others) }))
    .reduce<{ option: Task['options'][number][number]; hangUp: number } | undefined>(
      (best, one) => (best === undefined || one.hangUp < best.hangUp ? one : best),
      undefined,
    );
}

/** Stems set aside without which, each by itself, this one would come within the limit. */
function without(task: Task, stem: number, standing: Uint8Array): number[] {
  return [...standing.keys()].filter((other) => {
    if (other === stem || standing[other] === 0) return false;
    const fewer = standing.slice();
    fewer[other] = 0;
    return (bestAim(task, stem, fewer)?.hangUp ?? 1) <= task.limit;
  });
}

function percent(chance: number): string {
  return `${(100 * chance).toFixed(chance < 0.1 ? 1 : 0)} %`;
}

function listed(names: readonly string[], word = 'and'): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} ${word} ${last}`;
}
