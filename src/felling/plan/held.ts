// A plan held against a group in which one thing was measured otherwise, without planning anew: which of its falls would be over
// the limit or aimed where nothing can be aimed, and how many more hang-ups are to be expected. Looks at the planned aims only.
import { FellingError } from '../error.ts';
import { type FellingModel, obstaclesOf, worstOverLimit } from '../model/build.ts';
import { turn, WIDEST } from '../model/fall.ts';
import { filled } from '../model/filled.ts';
import { hangUpChance, hangUpMap, segments } from '../model/hang-up.ts';
import { inputsOtherwise, type Otherwise } from '../model/otherwise.ts';
import { thingsAround } from '../model/things.ts';
import type { OrderPlan } from '../order/result.ts';
import { aimAt } from '../stem/aims.ts';

export type HeldAgainst = Readonly<{
  /** By id as in the plan. */
  overLimit: readonly string[];
  /** Those of them that could not be aimed as planned any more. */
  lost: readonly string[];
  /** Hang-ups more than as measured now. */
  hangUps: number;
}>;

/** Holds a plan against one change; against one that cannot be, such as a crown that begins above the tip, it holds. */
export function heldAgainst(model: FellingModel, plan: OrderPlan, change: Otherwise): HeldAgainst {
  try {
    return held(model, plan, change);
  } catch (error) {
    if (error instanceof FellingError) return { overLimit: [], lost: [], hangUps: 0 };
    throw error;
  }
}

function held(model: FellingModel, plan: OrderPlan, change: Otherwise): HeldAgainst {
  const { assumed, problem } = model;
  const inputs = inputsOtherwise(model.inputs, change);
  const stems = model.stems.map((one, at) =>
    change.of === 'stem' && at === change.index ? filled(change.now, assumed) : one.filled,
  );
  /** Lean and height matter to the stem's own fall only, a crown and a place to every fall near it. */
  const matters = (stem: number): boolean =>
    change.of !== 'stem' ||
    stem === change.index ||
    change.changes === 'crown radius' ||
    change.changes === 'position';
  const down = new Set<number>();
  const overLimit: string[] = [];
  const lost: string[] = [];
  let hangUps = 0;
  for (const { stem, id, aim: planned, hangUp } of change.of === 'sapling' ? [] : plan.steps) {
    down.add(stem);
    const falling = stems[stem];
    if (falling === undefined || !matters(stem)) continue;
    const aim = aimAt(falling, planned, inputs, assumed);
    if ('why' in aim) {
      overLimit.push(id);
      lost.push(id);
      continue;
    }
    const widest = WIDEST * aim.directionError;
    const near = obstaclesOf(stem, falling, stems, inputs, assumed).filter(
      ({ bearing, crown }) => Math.abs(turn(bearing - planned)) - crown <= widest,
    );
    const chance = hangUpChance(segments(aim, hangUpMap(falling, near)), (other) => !down.has(other));
    hangUps += chance - hangUp;
    const isOwn = change.of === 'stem' && stem === change.index;
    const { lines = [], hazards = [] } = inputs;
    const forbids = isOwn
      ? thingsAround(
          falling,
          [],
          { ...inputs, lines, hazards, saplings: [], patches: [], leaveTrees: [] },
          assumed,
        )
      : [];
    const forbidden = worstOverLimit(forbids.flatMap((thing) => thing(aim))) !== undefined;
    if (chance > problem.limit + 1e-9 || forbidden) overLimit.push(id);
    if (forbidden) lost.push(id);
  }
  return { overLimit, lost, hangUps };
}
