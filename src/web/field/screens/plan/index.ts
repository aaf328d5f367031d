// plan: everything about felling plans on the phone. It is loaded after the page and entered by this door alone, so that the
// first load does not grow with it.
export { AimByPlan } from './AimByPlan.tsx';
export { planEnded } from './compared.ts';
export { NextByPlan } from './NextByPlan.tsx';
export { Plan } from './Plan.tsx';
export { PlanEnded } from './PlanEnded.tsx';
