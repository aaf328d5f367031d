// Every assumption of the felling model, by its name.
import { fallAssumptions } from './assumptions-fall.ts';
import { harmAssumptions } from './assumptions-harm.ts';
import { learnAssumptions } from './assumptions-learn.ts';

/** The defaults. Changing one is the user's right; which ones differ is printed with every plan. */
export const ASSUMPTIONS = /* @__PURE__ */ all();

function all() {
  return { ...fallAssumptions(), ...harmAssumptions(), ...learnAssumptions() };
}

export type AssumptionName = keyof typeof ASSUMPTIONS;
