// The cheapest aim of a stem while others stand, one stem and one set at a time: for groups too large for tables.
import type { Price } from './tables.ts';
import { type Option, onChanceGrid, type Task } from './task.ts';

export type Aimed = Readonly<{ option: number; hangUp: number; loss: number; cost: number }>;

/** The cheapest aim of a stem while others stand (by stem: 1, or 0 once it is down); none where no aim is within the limit. */
export type CheapestAim = (stem: number, standing: Uint8Array) => Aimed | undefined;

/** An aim laid out for counting: part p holds from `starts[p]` up to `starts[p + 1]` of `holders`. */
type Laid = Readonly<{
  option: number;
  loss: number;
  base: number;
  /** What it costs with nothing in the way: no set standing makes it cheaper. */
  floor: number;
  through: Float64Array;
  starts: Int32Array;
  holders: Int32Array;
  survivals: Float64Array;
}>;

/** Lays the aims of a task out for a price once, so that asking for the cheapest is quick. Of equal ones it takes the first. */
export function cheapestAims({ options, limit }: Pick<Task, 'options' | 'limit'>, price: Price): CheapestAim {
  const stems = options.map((own) =>
    own.map((option, number) => laidOut(option, number, price)).sort((a, b) => a.floor - b.floor),
  );
  return (stem, standing) => {
    let best: Aimed | undefined;
    for (const aim of stems[stem] ?? []) {
      if (best !== undefined && aim.floor > best.cost + 1e-9) break;
      const hangUp = onChanceGrid(chanceOf(aim, standing));
      if (hangUp > limit) continue;
      const cost = price.hangUp * hangUp + price.loss * aim.loss;
      if (best === undefined || cost < best.cost || (cost === best.cost && aim.option < best.option))
        best = { option: aim.option, hangUp, loss: aim.loss, cost };
    }
    return best;
  };
}

function laidOut({ base, loss, parts }: Option, option: number, price: Price): Laid {
  const starts = Int32Array.from({ length: parts.length + 1 }, () => 0);
  parts.forEach(({ holders }, part) => {
    starts[part + 1] = (starts[part] as number) + holders.length;
  });
  return {
    option,
    loss,
    base,
    floor: price.hangUp * base + price.loss * loss,
    through: Float64Array.from(parts, ({ through }) => through),
    starts,
    holders: Int32Array.from(parts.flatMap(({ holders }) => holders)),
    survivals: Float64Array.from(parts.flatMap(({ survivals }) => survivals)),
  };
}

function chanceOf({ base, through, starts, holders, survivals }: Laid, standing: Uint8Array): number {
  let chance = base;
  let at = 0;
  for (let part = 0; part < through.length; part += 1) {
    let past = 1;
    for (const end = starts[part + 1] as number; at < end; at += 1) {
      if (standing[holders[at] as number] === 1) past *= survivals[at] as number;
    }
    chance += (through[part] as number) * (1 - past);
  }
  return chance;
}

/** How much dearer each stem gets through each single other one that stands: [falling][standing], 0 or more. */
export function pairCosts(task: Task, price: Price): Float64Array[] {
  const count = task.options.length;
  const standing = new Uint8Array(count);
  const cheapest = cheapestAims(task, price);
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
  return [...new Set((options[stem] ?? []).flatMap(({ parts }) => parts.flatMap(({ holders }) => holders)))];
}
