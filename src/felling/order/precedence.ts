// Which stems wait for which. An order that would need one stem to bring down another (each waiting for the other)
// is refused, never broken up.
import { FellingError } from '../error.ts';
import type { OrderProblem } from './problem.ts';

/**
 * For each stem those that have to be down before it. Bumper trees are not
 * in it: they wait for what is felled, and what that is is found out later.
 *
 * @throws FellingError where stems wait for each other in a circle
 */
export function waitsOf(problem: OrderProblem): number[][] {
  const { stems, before } = problem;
  const waits = stems.map((_, stem) => [
    ...new Set(before.flatMap(([earlier, later]) => (later === stem ? [earlier] : []))),
  ]);
  const bumpers = new Set(problem.last);
  const all = waits.map((own, stem) =>
    bumpers.has(stem)
      ? [...own, ...stems.map((_, other) => other).filter((other) => !bumpers.has(other))]
      : own,
  );
  const circle = circleIn(all);
  if (circle) {
    const names = circle.map((stem) => stems[stem]?.id ?? '').join(', ');
    throw new FellingError(
      'before',
      names,
      `No order can be planned: ${names} would each have to be down before the other. Felling one onto another to bring it down is never planned.`,
      'Take back one of the "before" that make the circle, or get trained help on site.',
    );
  }
  return waits;
}

/** Stems of a circle in the order in which they wait for each other, or none. */
function circleIn(waits: readonly (readonly number[])[]): number[] | undefined {
  const done = new Set<number>();
  const path: number[] = [];
  const from = (stem: number): number[] | undefined => {
    const at = path.indexOf(stem);
    if (at >= 0) return path.slice(at);
    if (done.has(stem)) return undefined;
    path.push(stem);
    for (const other of waits[stem] ?? []) {
      const circle = from(other);
      if (circle) return circle;
    }
    path.pop();
    done.add(stem);
    return undefined;
  };
  for (let stem = 0; stem < waits.length; stem += 1) {
    const circle = from(stem);
    if (circle) return circle;
  }
  return undefined;
}
