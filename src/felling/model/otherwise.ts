// The model of a group as it would be if one measurement came out otherwise. Only what that changes is worked out again: a lean
// changes the aims of its own stem, a height its own reach, a crown or a place also what the others hang up in.
import { FellingError } from '../error.ts';
import { type AlsoAims, assembled, type FellingModel, type StemModel, stemModel } from './build.ts';
import { checkInputs } from './check-inputs.ts';
import { filled } from './filled.ts';
import type { GroupInputs, GroupStem, LeaveTree, Sapling } from './inputs.ts';
import { leaveTreeThing, saplingThing } from './things.ts';

/** One thing of the group measured otherwise; `index` is its place in its list of the inputs. */
export type Otherwise =
  | Readonly<{
      of: 'stem';
      index: number;
      now: GroupStem;
      changes: 'lean' | 'height' | 'crown radius' | 'position';
    }>
  | Readonly<{ of: 'leave tree'; index: number; now: LeaveTree }>
  | Readonly<{ of: 'sapling'; index: number; now: Sapling }>;

/** The inputs with that one thing changed. */
export function inputsOtherwise(inputs: GroupInputs, change: Otherwise): GroupInputs {
  const { index } = change;
  if (change.of === 'stem') return { ...inputs, stems: inputs.stems.with(index, change.now) };
  if (change.of === 'leave tree')
    return { ...inputs, leaveTrees: (inputs.leaveTrees ?? []).with(index, change.now) };
  return { ...inputs, saplings: (inputs.saplings ?? []).with(index, change.now) };
}

/**
 * The model as `buildModel` would make it of the changed inputs: the same aims and chances. What a fall breaks over costs
 * nothing in an order, and is not looked at anew.
 * @param also as for `buildModel`
 * @returns none where it cannot be so: two stems at one point, a sapling inside a stem
 */
export function modelOtherwise(
  model: FellingModel,
  change: Otherwise,
  also: AlsoAims,
): FellingModel | undefined {
  const { assumed } = model;
  const inputs = inputsOtherwise(model.inputs, change);
  try {
    const stems = model.stems.map((one, at) =>
      change.of === 'stem' && at === change.index ? filled(change.now, assumed) : one.filled,
    );
    checkInputs(inputs, stems);
    const group = { inputs, assumed, stems, also };
    return assembled(
      inputs,
      assumed,
      model.stems.map((one, at) => {
        const known = stillKnown(one, at, change, model);
        return known === 'all'
          ? { model: one, choices: model.problem.stems[at]?.choices ?? [] }
          : stemModel(at, group, known);
      }),
    );
  } catch (error) {
    if (error instanceof FellingError) return undefined;
    throw error;
  }
}

type Known = Parameters<typeof stemModel>[2] | 'all';

/** What of one stem the change leaves as it is. */
function stillKnown(
  { things, map, filled: falling }: StemModel,
  at: number,
  change: Otherwise,
  { inputs, assumed }: FellingModel,
): Known {
  const { saplings = [], patches = [] } = inputs;
  if (change.of === 'sapling')
    return { map, things: things.with(change.index, saplingThing(falling, change.now, assumed)) };
  if (change.of === 'leave tree') {
    const place = saplings.length + patches.length + change.index;
    return { things: things.with(place, leaveTreeThing(falling, change.now, assumed)) };
  }
  const { changes, index } = change;
  if (at === index) return changes === 'lean' ? { things, map } : {};
  return changes === 'lean' || changes === 'height' ? 'all' : { things };
}
