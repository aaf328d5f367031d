// felling-map: the plan of a group as a map on paper, to take along. From the plan in metres to SVG; rounds for the print only.
export { fellingMap } from './model.ts';
export { renderFellingMap } from './svg.ts';
