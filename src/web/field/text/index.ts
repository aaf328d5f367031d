// text: every word that the field page shows, in one catalogue, and how numbers, days and times are written.
// Another language is another file of the shape of en.ts. Knows no screens.
export { en as text } from './en.ts';
export { clock, dayAndTime, figure } from './format.ts';
