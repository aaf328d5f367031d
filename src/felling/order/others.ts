// What else could be done at each step, and what it would add to the whole plan.

import { turn } from '../model/fall.ts';
import { hangUpWorth } from './judge.ts';
import type { Fall } from './lagrange.ts';
import type { OrderProblem } from './problem.ts';
import type { More, OtherAim, OtherStem, PlanStep } from './result.ts';
import { hangUpOf, onChanceGrid, type Task } from './task.ts';

/** A change that adds no more than this to hang-ups and to loss is only just decided. Guess, no source. */
const closeMargin: More = { hangUps: 0.01, loss: 0.1 };

/** Other aims are listed when they are so many degrees from the planned one and from better ones listed, and so many at most. */
const apart = 10;
const mostAims = 4;

type Sums = Readonly<{ hangUps: number; loss: number; within: boolean }>;

/** The steps of a plan, each with what else could be done there. */
export function stepsOf(
  { stems }: OrderProblem,
  task: Task,
  falls: readonly Fall[],
  stemOf: readonly number[],
): PlanStep[] {
  const planned = sumsOf(task, falls);
  const standing = new Uint8Array(task.options.length).fill(1);
  return falls.map(({ stem, option }, place) => {
    standing[stem] = 0;
    const number = stemOf[stem] ?? 0;
    const { id, choices } = stems[number] ?? { id: '', choices: [] };
    const aims = (task.options[stem] ?? []).map((one) => ({
      choice: one.choice,
      aim: choices[one.choice]?.aim ?? 0,
      hangUp: hangUpOf(one, standing),
      loss: one.loss,
    }));
    const { choice, aim, hangUp, loss } = aims[option] ?? { choice: 0, aim: 0, hangUp: 0, loss: 0 };
    return {
      stem: number,
      id,
      choice,
      aim,
      hangUp,
      loss,
      otherAims: otherAims(aims, { aim, hangUp, loss }, task.limit),
      otherStems: falls.slice(place + 1).flatMap((later, ahead): OtherStem[] => {
        const moved = [...falls];
        moved.splice(place + 1 + ahead, 1);
        moved.splice(place, 0, later);
        if (!keepsTurns(task, moved)) return [];
        const sums = sumsOf(task, moved);
        if (!sums.within) return [];
        const other = stemOf[later.stem] ?? 0;
        const more = { hangUps: sums.hangUps - planned.hangUps, loss: sums.loss - planned.loss };
        return [{ stem: other, id: stems[other]?.id ?? '', more, close: isClose(more) }];
      }),
    };
  });
}

function otherAims(
  aims: readonly Omit<OtherAim, 'more' | 'close'>[],
  planned: Readonly<{ aim: number; hangUp: number; loss: number }>,
  limit: number,
): OtherAim[] {
  const listed: OtherAim[] = [];
  const harm = (one: { hangUp: number; loss: number }): number => hangUpWorth * one.hangUp + one.loss;
  for (const one of aims.toSorted((a, b) => harm(a) - harm(b))) {
    if (listed.length === mostAims) break;
    const near = [planned, ...listed].some(({ aim }) => Math.abs(turn(aim - one.aim)) < apart);
    if (near || one.hangUp > limit) continue;
    const more = { hangUps: one.hangUp - planned.hangUp, loss: one.loss - planned.loss };
    listed.push({ ...one, more, close: isClose(more) });
  }
  return listed;
}

function isClose({ hangUps, loss }: More): boolean {
  return hangUps <= closeMargin.hangUps && loss <= closeMargin.loss;
}

/** Sums of an order with its aims, and whether every fall is within the limit. */
function sumsOf({ options, limit }: Task, falls: readonly Fall[]): Sums {
  const standing = new Uint8Array(options.length).fill(1);
  let [hangUps, loss, within] = [0, 0, true];
  for (const { stem, option } of falls) {
    standing[stem] = 0;
    const own = options[stem]?.[option];
    if (own === undefined) continue;
    const chance = hangUpOf(own, standing);
    hangUps += chance;
    loss += own.loss;
    within = within && onChanceGrid(chance) <= limit;
  }
  return { hangUps, loss, within };
}

/** Whether an order keeps what waits for what and the settled places. */
function keepsTurns({ waits, places }: Task, falls: readonly Fall[]): boolean {
  const down = new Set<number>();
  return falls.every(({ stem }, place) => {
    const settled = places[stem];
    const kept =
      (settled === undefined || settled === place) && (waits[stem] ?? []).every((other) => down.has(other));
    down.add(stem);
    return kept;
  });
}
