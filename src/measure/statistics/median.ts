/** The median of values in rising order; NaN of none. */
export function medianOfSorted(sorted: readonly number[]): number {
  const middle = sorted.length / 2;
  const upper = sorted[Math.floor(middle)] ?? Number.NaN;
  return Number.isInteger(middle) ? (upper + (sorted[middle - 1] ?? Number.NaN)) / 2 : upper;
}
