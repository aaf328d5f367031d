// A plan as plain JSON: what a program needs to show it or to draw it, without the model's own tables.
import type { Folded } from '../../stand/index.ts';
import { planHash } from './adopted.ts';
import type { FellingPlan } from './plan.ts';

/** Entries are told by their number in the log, or by id where they have none yet. */
export function planJson(plan: FellingPlan, { entries }: Pick<Folded, 'entries'>): object {
  const { model, restsOn, falls, ...others } = plan;
  return {
    ...others,
    plan: planHash(plan),
    falls: falls.map(({ step, aim, ...fall }) => ({
      ...fall,
      aim: { ...aim, aim: step.aim },
      hangUp: step.hangUp,
      loss: step.loss,
      otherAims: step.otherAims.map(({ choice: _choice, ...other }) => other),
      otherStems: step.otherStems.map(({ id: label, more, close }) => ({ label, more, close })),
    })),
    assumptions: model.assumed,
    restsOn: restsOn.map((id) => entries.get(id)?.position ?? id),
  };
}
