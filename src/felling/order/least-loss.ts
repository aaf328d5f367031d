// The least loss among all plans whose sum of hang-up chances stays within a budget, exactly: label setting over sets of
// stems still standing. A label is a way to fell a set that no other way beats in both sums; labels that cannot be
// part of a plan within the budget, or of one that is better than a plan already known, are dropped.
import { dualOf, type Fall, type Sums, soFarAt } from './lagrange.ts';
import type { Moves } from './moves.ts';

export type LeastLoss = Sums & Readonly<{ bound: number; labels: number; bytes: number }>;

type Labels = { hangUps: number[]; loss: number[]; stem: number[]; option: number[]; next: number[] };
type Label = Readonly<{ hangUps: number; loss: number; stem: number; option: number; next: number }>;

/** What rounding may do to a sum with a price in it; sums without one are exact. */
const slip = 1e-9;

/**
 * @param soFar least sum of chances by set, up to there
 * @param most how many labels there may be; with more, the best plan met is given, with the bound on its loss
 * @returns none where no plan stays within the budget
 */
export function leastLoss(
  moves: Moves,
  soFar: Float64Array,
  budget: number,
  most: number,
): LeastLoss | undefined {
  const dual = dualOf(moves, budget);
  const lossSoFar = soFarAt(moves, dual.price);
  const worst = (dual.best?.loss ?? Number.POSITIVE_INFINITY) + dual.price * budget + slip;
  const keeps = (set: number, hangUps: number, loss: number): boolean =>
    hangUps + (soFar[set] as number) <= budget &&
    loss + dual.price * hangUps + (lossSoFar[set] as number) <= worst;
  const labels: Labels = { hangUps: [0], loss: [0], stem: [0], option: [0], next: [-1] };
  const sets = 2 ** moves.size;
  const start = new Int32Array(sets + 1);
  start[1] = 1;
  for (let set = 1; set < sets; set += 1) {
    for (const label of unbeaten(reached(moves, set, labels, start, keeps))) {
      labels.hangUps.push(label.hangUps);
      labels.loss.push(label.loss);
      labels.stem.push(label.stem);
      labels.option.push(label.option);
      labels.next.push(label.next);
    }
    start[set + 1] = labels.loss.length;
    if (labels.loss.length > most) break;
  }
  const count = labels.loss.length;
  const size = { labels: count, bytes: count * 40 + start.byteLength + lossSoFar.byteLength };
  if (count > most) return dual.best && { ...dual.best, bound: dual.bound, ...size };
  // Of one set the labels stand by rising chance and falling loss: the last has the least loss.
  if (start[sets - 1] === start[sets]) return undefined;
  const last = count - 1;
  const loss = labels.loss[last] as number;
  return {
    falls: fallsOf(labels, last),
    hangUps: labels.hangUps[last] as number,
    loss,
    bound: loss,
    ...size,
  };
}

function reached(
  { start: moveStart, chance, loss, option, size }: Moves,
  set: number,
  labels: Labels,
  start: Int32Array,
  keeps: (set: number, hangUps: number, loss: number) => boolean,
): Label[] {
  const found: Label[] = [];
  const sets = 2 ** size;
  for (let stem = 0; stem < size; stem += 1) {
    if ((set & (1 << stem)) === 0) continue;
    const rest = set ^ (1 << stem);
    const [from, to] = [start[rest] as number, start[rest + 1] as number];
    if (from === to) continue;
    const end = moveStart[stem * sets + rest + 1] as number;
    for (let at = moveStart[stem * sets + rest] as number; at < end; at += 1) {
      for (let next = from; next < to; next += 1) {
        const hangUps = (chance[at] as number) + (labels.hangUps[next] as number);
        const sum = (loss[at] as number) + (labels.loss[next] as number);
        if (!keeps(set, hangUps, sum)) continue;
        found.push({ hangUps, loss: sum, stem, option: option[at] as number, next });
      }
    }
  }
  return found;
}

/** By rising chance and falling loss. Of equal ones the smaller stem stays, then the aim listed first. */
function unbeaten(found: Label[]): Label[] {
  found.sort((a, b) => a.hangUps - b.hangUps || a.loss - b.loss || a.stem - b.stem || a.option - b.option);
  let least = Number.POSITIVE_INFINITY;
  return found.filter(({ loss }) => {
    if (loss >= least) return false;
    least = loss;
    return true;
  });
}

function fallsOf({ stem, option, next }: Labels, from: number): Fall[] {
  const falls: Fall[] = [];
  for (let at = from; (next[at] as number) >= 0; at = next[at] as number)
    falls.push({ stem: stem[at] as number, option: option[at] as number });
  return falls;
}
