// Figures with the entries they rest on: what a forester checks, and what an auditor asks for next.
import { type Figure, isNotEnough, type NotEnough } from '../../measure/index.ts';

/** A figure and the ids of the entries that it rests on, in order of happening. */
export type TracedFigure = Figure & Readonly<{ restsOn: readonly string[] }>;
export type Answer = TracedFigure | NotEnough;

/** Puts the entries beside a figure; what is missing rests on nothing. */
export function traced(figure: Figure | NotEnough, restsOn: readonly string[]): Answer {
  return isNotEnough(figure) ? figure : { ...figure, restsOn };
}
