// charts: from data to SVG. It brings a charting library along, so it is loaded only when a page is printed.
export { drawChart, swatch } from './draw.ts';
export type { BarChart, Chart, DotChart } from './model.ts';
