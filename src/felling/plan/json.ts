// A plan as plain JSON: what a program needs to show it or to draw it, without the model's own tables.
import type { Folded } from '../../stand/index.ts';
import { planHash } from '../adopted/adoption.ts';
import type { FellingPlan } from './plan.ts';

/** Entries are told by their number in the log, or by id where they have none yet. */
export function planJson(plan: FellingPlan, { entries }: Pick<Folded, 'entries'>): object {
  const { model, restsOn, falls, changed, unused, ...others } = plan;
  const numbered = (id: string) => entries.get(id)?.position ?? id;
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
    changed: changed.map(({ recorded, ...one }) => ({
      ...one,
      recorded: recorded === undefined ? null : { ...recorded, entry: numbered(recorded.entry) },
    })),
    unused: unused.map(({ entry, says }) => ({ entry: numbered(entry), says })),
    assumptions: model.assumed,
    restsOn: restsOn.map(numbered),
  };
}
