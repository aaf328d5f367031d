// gapledger worksheet: notch and hinge of one stem. It shares all with the plan, which gives the aim.
export { workSheet as work } from './plan.ts';
