/**
 * The answer of every computation that can fail: a figure with where it comes from, or the words for what is missing.
 *
 * A figure is never rounded here; rounding belongs to the place that shows it.
 */

/** A computed number with its unit, the method that gave it and the source of that method. */
export type Figure = Readonly<{ value: number; unit: string; method: string; source: string }>;

/** No figure, and in words what is missing or why: always a sentence that begins "not enough data: ". */
export type NotEnough = Readonly<{ notEnough: string }>;

/** Says that there is no figure; `what` goes on from "not enough data: " and tells what is missing, in words. */
export function notEnough(what: string): NotEnough {
  return { notEnough: `not enough data: ${what}` };
}

/** True when `answer` is the statement that there is no figure. */
export function isNotEnough(answer: unknown): answer is NotEnough {
  return typeof answer === 'object' && answer !== null && 'notEnough' in answer;
}

/** "1 of 6 stems has no DBH", "2 of 6 stems have no DBH": how many of how many things have none of something. */
export function lacking(missing: number, of: number, one: string, what: string, many = `${one}s`): string {
  return `${missing} of ${of} ${of === 1 ? one : many} ${missing === 1 ? 'has' : 'have'} no ${what}`;
}
