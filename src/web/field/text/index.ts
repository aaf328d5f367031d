// text: every word that the field page shows, in one catalogue, and how numbers, days and times are written.
// Another language is another file of the shape of en.ts. Knows no screens.

/** Words of what is loaded later, which are loaded with it. */
export { plan as planText } from './en/plan.ts';
export { en as text } from './en.ts';
export { clock, dayAndTime, figure } from './format.ts';
