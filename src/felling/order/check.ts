// What has to hold of a problem before an order is looked for. Everything after this trusts it.
import { FellingError } from '../error.ts';
import type { Choice, OrderProblem } from './problem.ts';

/**
 * @throws FellingError naming field, value and remedy: a limit or chance out of range, a stem that is not there, the same id
 *   twice, a settled aim or place that does not exist
 */
export function checkProblem(problem: OrderProblem): void {
  const { stems, limit, tolerance } = problem;
  if (!(limit > 0 && limit <= 1))
    throw new FellingError(
      'limit',
      String(limit),
      `The limit on the chance of a hang-up is ${limit}.`,
      'Give a chance above 0 and at most 1.',
    );
  if (!(tolerance >= 0 && Number.isFinite(tolerance)))
    throw new FellingError(
      'tolerance',
      String(tolerance),
      `The tolerance on the sum of hang-up chances is ${tolerance}.`,
      'Give 0 or a positive number of hang-ups.',
    );
  const ids = new Set<string>();
  for (const { id, choices } of stems) {
    if (ids.has(id))
      throw new FellingError('stems', id, `The stem ${id} is in the group twice.`, 'Name every stem once.');
    ids.add(id);
    choices.forEach((choice, number) => {
      checkChoice(`stem ${id}, aim ${number}`, choice, stems.length);
    });
  }
  checkNamed(problem);
  checkSettled(problem);
}

function checkChoice(where: string, { aim, loss, segments }: Choice, count: number): void {
  if (!Number.isFinite(aim))
    throw new FellingError(where, String(aim), `The aim of ${where} is no azimuth.`, 'Give degrees.');
  if (!(loss >= 0 && Number.isFinite(loss)))
    throw new FellingError(where, String(loss), `The loss of ${where} is ${loss}.`, 'Give 0 or more.');
  let all = 0;
  for (const { weight, always, holds } of segments) {
    all += weight;
    for (const chance of [weight, always, ...holds.map(({ survival }) => survival)]) {
      if (!(chance >= 0 && chance <= 1 + 1e-9))
        throw new FellingError(
          where,
          String(chance),
          `A chance of ${where} is ${chance}.`,
          'Give chances from 0 to 1.',
        );
    }
    for (const { stem } of holds) checkStem(where, stem, count);
  }
  if (all > 1 + 1e-6)
    throw new FellingError(
      where,
      String(all),
      `The parts of ${where} have a chance of ${all} together.`,
      'Let the weights sum to at most 1.',
    );
}

function checkStem(field: string, stem: number, count: number): void {
  if (!(Number.isInteger(stem) && stem >= 0 && stem < count))
    throw new FellingError(
      field,
      String(stem),
      `There is no stem ${stem}; the group has ${count}.`,
      'Name a stem of this group.',
    );
}

function checkNamed({ stems, before, last }: OrderProblem): void {
  for (const stem of before.flat()) checkStem('before', stem, stems.length);
  for (const stem of last) checkStem('last', stem, stems.length);
}

function checkSettled({ stems, fixed = [] }: OrderProblem): void {
  const places = new Map<number, string>();
  for (const { stem, choice, place } of fixed) {
    checkStem('fixed', stem, stems.length);
    const { id, choices } = stems[stem] ?? { id: '', choices: [] };
    if (choice !== undefined && choices[choice] === undefined)
      throw new FellingError(
        'fixed',
        String(choice),
        `The stem ${id} has no aim ${choice}.`,
        `Settle one of its ${choices.length} aims.`,
      );
    if (place === undefined) continue;
    const other = places.get(place);
    if (other !== undefined || !Number.isInteger(place) || place < 0)
      throw new FellingError(
        'fixed',
        String(place),
        other === undefined
          ? `${place} is no place in the order.`
          : `The stems ${other} and ${id} are both settled at place ${place + 1}.`,
        'Give each stem a place of its own, counted from the first.',
      );
    places.set(place, id);
  }
}
