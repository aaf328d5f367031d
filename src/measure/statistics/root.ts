/**
 * The place between `low` and `high` where `f` changes its sign, by halving until two neighbouring numbers are left.
 * Slow and sure: it needs no slope, and a jump is found as well as a crossing.
 *
 * @param f has different signs at `low` and `high`; where it has not, the end that is nearer to zero is given
 */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  let [below, above] = [low, high];
  const atLow = f(low);
  const atHigh = f(high);
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (Math.sign(atLow) === Math.sign(atHigh)) return Math.abs(atLow) < Math.abs(atHigh) ? low : high;
  for (;;) {
    const middle = (below + above) / 2;
    if (middle <= below || middle >= above) return middle;
    const value = f(middle);
    if (value === 0) return middle;
    if (Math.sign(value) === Math.sign(atLow)) below = middle;
    else above = middle;
  }
}
