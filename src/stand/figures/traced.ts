// Figures with the entries they rest on: what a forester checks, and what an auditor asks for next.
import { type Figure, isNotEnough, type NotEnough } from '../../measure/index.ts';

/** A figure and the ids of the entries that it rests on, in order of happening. */
export type TracedFigure = Figure & Readonly<{ restsOn: readonly string[] }>;
export type Answer = TracedFigure | NotEnough;

/**
 * Puts the entries beside a figure; what is missing rests on nothing.
 * @param restsOn asked when the entries are looked at: those of a large stand fill more room than all its figures
 */
export function traced(figure: Figure | NotEnough, restsOn: () => readonly string[]): Answer {
  if (isNotEnough(figure)) return figure;
  return {
    ...figure,
    get restsOn() {
      return restsOn();
    },
  };
}

/** The entries of several things, listed when they are first asked for. */
export function entriesOf(
  things: readonly Readonly<{ entries: readonly string[] }>[],
): () => readonly string[] {
  let listed: readonly string[] | undefined;
  return () => {
    listed ??= things.flatMap(({ entries }) => entries);
    return listed;
  };
}
