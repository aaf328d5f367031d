// Which stems can be felled at all without a fall over the limit.
//
// A chance of a hang-up never grows when something else comes down, and waiting never begins when something else comes
// down. So whatever can be felled now can also be felled later, and felling all that can be felled, in any order, ends
// with the same stems standing: those that no order can fell within the limit. They are set aside as standing.
import { hangUpOf, type Task } from './task.ts';

/**
 * By stem: 1 for what some order fells within the limit, 0 for what is set aside.
 *
 * @param bumpers by stem: 1 for bumper trees, which wait for all else that is felled
 */
export function fellable(task: Task, bumpers: Uint8Array): Uint8Array {
  const standing = new Uint8Array(task.options.length).fill(1);
  for (const turn of [0, 1]) {
    let found = true;
    while (found) {
      found = false;
      for (let stem = 0; stem < standing.length; stem += 1) {
        if (standing[stem] === 0 || bumpers[stem] !== turn || !canFall(task, stem, standing)) continue;
        standing[stem] = 0;
        found = true;
      }
    }
  }
  return standing.map((stands) => 1 - stands);
}

/** Whether nothing that a stem waits for stands any more and one of its aims is within the limit. */
export function canFall({ options, waits, limit }: Task, stem: number, standing: Uint8Array): boolean {
  if ((waits[stem] ?? []).some((other) => standing[other] === 1)) return false;
  return (options[stem] ?? []).some((option) => hangUpOf(option, standing) <= limit);
}
