// The falls that some plan within the budget can contain: for every stem and every set of others still standing the
// aims of which none is beaten by another in both chance and loss. All that the search for the least loss looks at.
import { countBits, mayFall, type Turns } from './subsets.ts';
import { type ChanceTable, chanceAt } from './tables.ts';
import type { Option } from './task.ts';

/** Falls of stem s that leave the set r standing stand from start[s × 2^n + r] up to the next start. */
export type Moves = Readonly<{
  start: Int32Array;
  chance: Float64Array;
  loss: Float64Array;
  option: Uint16Array;
  size: number;
}>;

export type MovesInput = Readonly<{
  options: readonly (readonly Option[])[];
  limit: number;
  tables: readonly (readonly ChanceTable[])[];
  /** Least chance by stem and set of others standing. */
  costs: readonly Float64Array[];
  turns: Turns;
  /** Least sum of chances by set standing: still to come, and up to there. */
  toGo: Float64Array;
  soFar: Float64Array;
  /** The largest sum of chances that a plan may have. */
  budget: number;
}>;

/** Gives none when there are more than `most`. */
export function movesWithin(input: MovesInput, most: number): Moves | undefined {
  const { options, costs, turns, toGo, soFar, budget } = input;
  const { size } = turns;
  const sets = 2 ** size;
  const start = new Int32Array(size * sets + 1);
  const found = { chance: [] as number[], loss: [] as number[], option: [] as number[] };
  for (let stem = 0; stem < size; stem += 1) {
    const bit = 1 << stem;
    const least = costs[stem] as Float64Array;
    for (let rest = 0; rest < sets; rest += 1) {
      start[stem * sets + rest] = found.chance.length;
      if ((rest & bit) !== 0) continue;
      const slack = budget - (soFar[rest | bit] as number) - (toGo[rest] as number);
      if ((least[rest] as number) > slack || slack < 0) continue;
      if (!mayFall(turns, stem, rest | bit, size - countBits(rest) - 1)) continue;
      addUnbeaten(found, options[stem] ?? [], input, stem, rest, slack);
    }
    if (found.chance.length > most) return undefined;
  }
  start[size * sets] = found.chance.length;
  return {
    start,
    size,
    chance: Float64Array.from(found.chance),
    loss: Float64Array.from(found.loss),
    option: Uint16Array.from(found.option),
  };
}

function addUnbeaten(
  found: { chance: number[]; loss: number[]; option: number[] },
  own: readonly Option[],
  { tables, limit }: MovesInput,
  stem: number,
  rest: number,
  slack: number,
): void {
  const from = found.chance.length;
  const most = Math.min(limit, slack);
  for (let number = 0; number < own.length; number += 1) {
    const chance = chanceAt((tables[stem] as ChanceTable[])[number] as ChanceTable, rest);
    if (chance > most) continue;
    const loss = (own[number] as Option).loss;
    let end = found.chance.length;
    let beaten = false;
    for (let other = from; other < end; other += 1) {
      if ((found.chance[other] as number) <= chance && (found.loss[other] as number) <= loss) {
        beaten = true;
        break;
      }
    }
    if (beaten) continue;
    for (let other = end - 1; other >= from; other -= 1) {
      if ((found.chance[other] as number) < chance || (found.loss[other] as number) < loss) continue;
      found.chance.splice(other, 1);
      found.loss.splice(other, 1);
      found.option.splice(other, 1);
      end -= 1;
    }
    found.chance.push(chance);
    found.loss.push(loss);
    found.option.push(number);
  }
}
