// The cheapest aim of a stem while others stand, one stem and one set at a time: for groups too large for tables.
import type { Price } from './tables.ts';
import { type Option, onChanceGrid, type Task } from './task.ts';

export type Aimed = Readonly<{ option: number; hangUp: number; loss: number; cost: number }>;

/** The cheapest aim of a stem while others stand (by stem: 1, or 0 once it is down); none where no aim is within the limit. */
export type CheapestAim = (stem: number, standing: Uint8Array) => Aimed | undefined;

/** An aim laid out for counting, whatever the price: part p holds from `starts[p]` up to `starts[p + 1]` of `holders`. */
type Laid = Readonly<{
  option: number;
  loss: number;
  base: number;
  through: Float64Array;
  starts: Int32Array;
  holders: Int32Array;
  survivals: Float64Array;
}>;

/** Lays the aims of a task out once, so that asking for the cheapest at a price is quick. Of equal ones it takes the first. */
export function aimsOf({ options, limit }: Pick<Task, 'options' | 'limit'>): (price: Price) => CheapestAim {
  const laid = options.map((own) => own.map(laidOut));
  return ({ hangUp: perHangUp, loss: perLoss }) => {
    // With nothing in the way an aim is as cheap as it gets.
    const floor = ({ base, loss }: Laid): number => perHangUp * base + perLoss * loss;
    const stems = laid.map((own) =>
      own.map((aim) => ({ aim, floor: floor(aim) })).sort((a, b) => a.floor - b.floor),
    );
    const cheaper = (aim: Laid, standing: Uint8Array, best: Aimed | undefined): Aimed | undefined => {
      const most = best === undefined ? limit : chanceFor(best.cost - perLoss * aim.loss, perHangUp, limit);
      const hangUp = onChanceGrid(chanceOf(aim, standing, most + slack));
      const cost = perHangUp * hangUp + perLoss * aim.loss;
      const isFirst =
        best === undefined || cost < best.cost || (cost === best.cost && aim.option < best.option);
      return hangUp <= limit && isFirst ? { option: aim.option, hangUp, loss: aim.loss, cost } : best;
    };
    return (stem, standing) => {
      let best: Aimed | undefined;
      for (const { aim, floor } of stems[stem] ?? []) {
        if (best !== undefined && floor > best.cost + slack) break;
        best = cheaper(aim, standing, best);
      }
      return best;
    };
  };
}

/** The chance of a hang-up that a cost leaves room for, at most the limit. */
function chanceFor(cost: number, perHangUp: number, limit: number): number {
  return perHangUp === 0 ? limit : Math.min(limit, cost / perHangUp);
}

/** More than what rounding to the grid moves a cost by. */
const slack = 1e-8;

/** Parts with the most to hold first, so that it is soon seen when an aim is too dear. */
function laidOut({ base, loss, parts }: Option, option: number): Laid {
  const sorted = parts.toSorted((a, b) => b.through - a.through);
  const starts = new Int32Array(sorted.length + 1);
  sorted.forEach(({ holders }, part) => {
    starts[part + 1] = (starts[part] as number) + holders.length;
  });
  return {
    option,
    loss,
    base,
    through: Float64Array.from(sorted, ({ through }) => through),
    starts,
    holders: Int32Array.from(sorted.flatMap(({ holders }) => holders)),
    survivals: Float64Array.from(sorted.flatMap(({ survivals }) => survivals)),
  };
}

/** The chance of a hang-up, or some number above `most` once it is above that. */
function chanceOf(
  { base, through, starts, holders, survivals }: Laid,
  standing: Uint8Array,
  most: number,
): number {
  let chance = base;
  let at = 0;
  for (let part = 0; part < through.length && chance <= most; part += 1) {
    let past = 1;
    for (const end = starts[part + 1] as number; at < end; at += 1) {
      if (standing[holders[at] as number] === 1) past *= survivals[at] as number;
    }
    chance += (through[part] as number) * (1 - past);
  }
  return chance;
}

/** How much dearer each stem gets through each single other one that stands: [falling][standing], 0 or more. */
export function pairCosts(task: Task, price: Price, cheapest: CheapestAim): Float64Array[] {
  const count = task.options.length;
  const standing = new Uint8Array(count);
  return Array.from({ length: count }, (_, stem) => {
    const alone = cheapest(stem, standing)?.cost ?? 0;
    const inWay = new Set(inTheWay(task, stem));
    return Float64Array.from({ length: count }, (__, other) => {
      if (!inWay.has(other)) return 0;
      standing[other] = 1;
      const beside = cheapest(stem, standing)?.cost;
      standing[other] = 0;
      return (beside ?? alone + price.hangUp) - alone;
    });
  });
}

/** The stems that stand in the way of some aim of a stem. */
export function inTheWay({ options }: Pick<Task, 'options'>, stem: number): number[] {
  const found = new Set<number>();
  for (const { parts } of options[stem] ?? [])
    for (const { holders } of parts) for (const holder of holders) found.add(holder);
  return [...found];
}
