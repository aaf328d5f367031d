// The chance of a hang-up for every set of stems still standing at once.
//
// The product of survivals over the holders still standing is a sum over sets of them: the product over S of (1 − q) is
// the sum over T within S of the product over T of (−q). So each part of an option gives one term to each set T of its holders, and one
// pass that adds over subsets turns the terms into the chance for every S. Sets are bits of an integer.
import { type Option, onChanceGrid } from './task.ts';

/** Chances by the set of an option's own holders; `low` and `high` take a set of all stems (two bytes) to such a set. */
export type ChanceTable = Readonly<{ chances: Float64Array; low: Uint32Array; high: Uint32Array }>;

/** The largest number of stems for which sets are kept in tables. */
export const tableLimit = 16;

/** The table of an option among at most 16 stems: 2^k numbers for k holders. */
export function chanceTable({ base, parts }: Option): ChanceTable {
  const own = [...new Set(parts.flatMap(({ holders }) => holders))].sort((a, b) => a - b);
  const chances = new Float64Array(2 ** own.length);
  chances[0] = base;
  for (const { through, holders, survivals } of parts) {
    const bits = holders.map((holder) => 2 ** own.indexOf(holder));
    // terms[t]: −through × product over the t-th set of −(1 − survival); sets[t]: that set in the bits of `own`.
    const terms = [-through];
    const sets = [0];
    bits.forEach((bit, at) => {
      const q = 1 - (survivals[at] ?? 1);
      for (let t = 0, count = terms.length; t < count; t += 1) {
        const set = (sets[t] ?? 0) | bit;
        const term = -(terms[t] ?? 0) * q;
        terms.push(term);
        sets.push(set);
        chances[set] = (chances[set] ?? 0) + term;
      }
    });
  }
  addOverSubsets(chances);
  for (let set = 0; set < chances.length; set += 1) chances[set] = onChanceGrid(chances[set] ?? 0);
  return { chances, ...bytesToOwn(own) };
}

function addOverSubsets(values: Float64Array): void {
  for (let bit = 1; bit < values.length; bit *= 2) {
    for (let block = bit; block < values.length; block += 2 * bit) {
      for (let set = block; set < block + bit; set += 1)
        values[set] = (values[set] ?? 0) + (values[set - bit] ?? 0);
    }
  }
}

function bytesToOwn(own: readonly number[]): { low: Uint32Array; high: Uint32Array } {
  const low = new Uint32Array(256);
  const high = new Uint32Array(256);
  for (let byte = 0; byte < 256; byte += 1) {
    own.forEach((stem, at) => {
      if (stem < 8 && (byte >> stem) & 1) low[byte] = (low[byte] ?? 0) | (1 << at);
      if (stem >= 8 && (byte >> (stem - 8)) & 1) high[byte] = (high[byte] ?? 0) | (1 << at);
    });
  }
  return { low, high };
}

/** The chance while a set of all stems stands. */
export function chanceAt({ chances, low, high }: ChanceTable, set: number): number {
  return chances[(low[set & 255] as number) | (high[set >>> 8] as number)] as number;
}

export function tableBytes({ chances, low, high }: ChanceTable): number {
  return chances.byteLength + low.byteLength + high.byteLength;
}

/** What one hang-up and one sapling's worth count in a cost. */
export type Price = Readonly<{ hangUp: number; loss: number }>;

/**
 * The least cost of felling each stem for every set of others still standing: an array of 2^n numbers per stem, at
 * the index of the set; Infinity where no aim is within the limit.
 */
export function cheapest(
  { options, limit }: { options: readonly (readonly Option[])[]; limit: number },
  tables: readonly (readonly ChanceTable[])[],
  price: Price,
): Float64Array[] {
  const sets = 2 ** options.length;
  return options.map((own, stem) => {
    const least = new Float64Array(sets).fill(Number.POSITIVE_INFINITY);
    own.forEach(({ loss }, number) => {
      const table = tables[stem]?.[number];
      if (table) lower(least, table, { stem, limit, hangUp: price.hangUp, loss: price.loss * loss });
    });
    return least;
  });
}

function lower(
  least: Float64Array,
  table: ChanceTable,
  { stem, limit, hangUp, loss }: { stem: number; limit: number; hangUp: number; loss: number },
): void {
  const bit = 1 << stem;
  for (let set = 0; set < least.length; set += 1) {
    if ((set & bit) !== 0) continue;
    const chance = chanceAt(table, set);
    if (chance > limit) continue;
    const cost = hangUp * chance + loss;
    if (cost < (least[set] as number)) least[set] = cost;
  }
}
