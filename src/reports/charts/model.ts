// A chart as data: what is drawn, and the words that stand for it where it cannot be seen. The same numbers always
// stand in a table beside it.

/** Tells series apart without colour. */
export type Fill = 'solid' | 'open' | 'hatched';
export type Mark = 'dot' | 'ring' | 'cross' | 'square' | 'frame';

export type Chart = BarChart | DotChart;

export type BarChart = Readonly<{
  is: 'bars';
  title: string;
  /** What it shows, in a sentence for those who cannot see it. */
  description: string;
  across: string;
  up: string;
  categories: readonly string[];
  /** Stacked in this order from below; one value for each category. */
  series: readonly Readonly<{ name: string; fill: Fill; values: readonly number[] }>[];
}>;

export type DotChart = Readonly<{
  is: 'dots';
  /** Points of a series follow each other and are joined by a line: dashed for the open marks. */
  joined?: boolean;
  title: string;
  description: string;
  across: string;
  up: string;
  series: readonly Readonly<{
    name: string;
    mark: Mark;
    points: readonly (readonly [x: number, y: number])[];
  }>[];
}>;
