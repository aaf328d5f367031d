// The problem as the search works on it: stems in the order of their ids, so that the first of two equal ones is always
// the one with the smaller id; chances and losses on a fine grid of binary fractions, so that sums come out the same in
// whatever order they are added and ties are ties.
import type { Choice, OrderProblem } from './problem.ts';

/** Directions and lengths in which the same stems stand in the way; `through` is the chance to fall here and pass all else. */
export type Part = Readonly<{ through: number; holders: readonly number[]; survivals: readonly number[] }>;

/** An aim of a stem. P(hang-up | S standing) = base + sum over parts of through × (1 − product of survivals in S). */
export type Option = Readonly<{ choice: number; loss: number; base: number; parts: readonly Part[] }>;

/** Stems to be felled, all of them; what stands for ever is already in the options. */
export type Task = Readonly<{
  options: readonly (readonly Option[])[];
  /** For each stem those that have to be down before it. */
  waits: readonly (readonly number[])[];
  /** For each stem its settled place in the order, 0 for the first, or none. */
  places: readonly (number | undefined)[];
  limit: number;
}>;

const chanceGrain = 2 ** 40;
const lossGrain = 2 ** 36;

/** A chance on the grid of 2^-40, about 1e-12. */
export function onChanceGrid(chance: number): number {
  return Math.round(chance * chanceGrain) / chanceGrain;
}

/** A loss on the grid of 2^-36, about 1.5e-11 of a sapling. */
function onLossGrid(loss: number): number {
  return Math.round(loss * lossGrain) / lossGrain;
}

/** @param rank the place of each stem of the problem among the ids */
function optionOf({ loss, segments }: Choice, choice: number, rank: readonly number[]): Option {
  let base = 0;
  const parts: Part[] = [];
  for (const { weight, always, holds } of segments) {
    base += weight * (1 - always);
    if (holds.length === 0) continue;
    const sorted = holds
      .map(({ stem, survival }) => ({ holder: rank[stem] ?? 0, survival }))
      .sort((a, b) => a.holder - b.holder);
    parts.push({
      through: weight * always,
      holders: sorted.map(({ holder }) => holder),
      survivals: sorted.map(({ survival }) => survival),
    });
  }
  return { choice, loss: onLossGrid(loss), base, parts };
}

/**
 * Chance of a hang-up.
 *
 * @param standing by stem: 1 while it stands, 0 once it is down
 */
export function hangUpOf({ base, parts }: Option, standing: Uint8Array): number {
  let chance = base;
  for (const { through, holders, survivals } of parts) {
    let past = 1;
    for (let at = 0; at < holders.length; at += 1) {
      if (standing[holders[at] ?? -1] === 1) past *= survivals[at] ?? 1;
    }
    chance += through * (1 - past);
  }
  return onChanceGrid(chance);
}

/**
 * The task of felling only some of the stems while others stand all the time and the rest is down. Aims that are over
 * the limit with everything kept already down are left out: they would be over it in every order.
 *
 * @param kept stems of the smaller task, in ascending order; they get the numbers 0, 1, 2…
 * @param standing by stem of the larger task: 1 for what stands all the time
 * @param placesBefore how many stems of the order come before the smaller task
 */
export function partOf(task: Task, kept: readonly number[], standing: Uint8Array, placesBefore = 0): Task {
  const numbers = new Int32Array(standing.length).fill(-1);
  kept.forEach((stem, number) => {
    numbers[stem] = number;
  });
  const places = kept.map((stem) => {
    const place = task.places[stem];
    return place === undefined ? undefined : place - placesBefore;
  });
  return {
    limit: task.limit,
    places,
    waits: kept.map((stem) => (task.waits[stem] ?? []).map((other) => numbers[other] ?? -1).filter(isKept)),
    options: kept.map((stem) =>
      (task.options[stem] ?? [])
        .map((option) => narrowed(option, numbers, standing))
        .filter(({ base }) => onChanceGrid(base) <= task.limit),
    ),
  };
}

function isKept(number: number): boolean {
  return number >= 0;
}

function narrowed({ choice, loss, base, parts }: Option, numbers: Int32Array, standing: Uint8Array): Option {
  let stays = base;
  const merged = new Map<string, { through: number; holders: number[]; survivals: number[] }>();
  for (const part of parts) {
    const holders: number[] = [];
    const survivals: number[] = [];
    let past = 1;
    part.holders.forEach((holder, at) => {
      const survival = part.survivals[at] ?? 1;
      const number = numbers[holder] ?? -1;
      if (number >= 0) {
        holders.push(number);
        survivals.push(survival);
      } else if (standing[holder] === 1) past *= survival;
    });
    stays += part.through * (1 - past);
    if (holders.length === 0) continue;
    const key = `${holders.join()}:${survivals.join()}`;
    const same = merged.get(key);
    if (same) same.through += part.through * past;
    else merged.set(key, { through: part.through * past, holders, survivals });
  }
  return { choice, loss, base: stays, parts: [...merged.values()] };
}

/** The problem as a task with every stem in it, and which stem of the problem each of its stems is. */
export function taskOf(
  { stems, limit, fixed = [] }: OrderProblem,
  waits: readonly (readonly number[])[],
): { task: Task; stemOf: readonly number[] } {
  const stemOf = stems.map((_, stem) => stem).sort((a, b) => compare(stems[a]?.id ?? '', stems[b]?.id ?? ''));
  const rank: number[] = [];
  stemOf.forEach((stem, place) => {
    rank[stem] = place;
  });
  const settled = stemOf.map((stem) => fixed.find((one) => one.stem === stem));
  const task: Task = {
    limit,
    places: settled.map((one) => one?.place),
    waits: stemOf.map((stem) => (waits[stem] ?? []).map((other) => rank[other] ?? 0)),
    options: stemOf.map((stem, place) => {
      const only = settled[place]?.choice;
      return (stems[stem]?.choices ?? [])
        .map((choice, number) => optionOf(choice, number, rank))
        .filter(({ choice }) => only === undefined || choice === only);
    }),
  };
  return { task, stemOf };
}

/** By code units, the same on every device; a comparison by language is not. */
function compare(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
