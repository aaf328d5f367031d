// What a plan must say besides order and aims, because no table of costs can hold it: stems that come to lie across others, boles
// that may break there, stems that can roll, and what is lost if nothing is lost twice. Looked at once the order is settled.
import { type FellingModel, fallOf } from '../model/build.ts';
import type { SequenceFall } from '../order/judge.ts';
import { type Crossings, crossingsOf, type PlannedLay } from './crossings.ts';
import { type OnceOnly, onceOnly } from './once.ts';
import { type Rolling, rollingOf } from './rolling.ts';

export type AfterPlan = Readonly<{
  crossings: Crossings;
  rolling: readonly Rolling[];
  once: OnceOnly;
}>;

/** Looks at a plan: its falls in their order. */
export function afterPlan(model: FellingModel, steps: readonly SequenceFall[]): AfterPlan {
  const { inputs, assumed } = model;
  const { onTheGround = [] } = inputs;
  const falls = steps.flatMap(({ stem, choice }): PlannedLay[] => {
    const fall = fallOf(model, stem, choice);
    const body = model.stems[stem]?.filled;
    if (fall === undefined || body === undefined) return [];
    const { id, label, x, y } = body.stem;
    return [{ id, label, stump: { x, y }, body, aim: fall.aim, directionError: fall.directionError }];
  });
  const risks = steps.map(({ stem, choice }) => {
    const fall = fallOf(model, stem, choice);
    return fall === undefined ? [] : (model.stems[stem]?.things ?? []).flatMap((thing) => thing(fall));
  });
  return {
    crossings: crossingsOf(
      falls,
      onTheGround.map((one) => ({ ...one, dbh: one.dbh ?? assumed.leaveTreeDbh })),
    ),
    rolling: rollingOf(falls, inputs, assumed),
    once: onceOnly(model, falls, risks),
  };
}
