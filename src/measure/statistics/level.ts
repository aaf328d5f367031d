/** @throws RangeError for a confidence level that is none */
export function checkLevel(level: number): void {
  if (!(level > 0 && level < 1))
    throw new RangeError(`level: ${level} is no confidence level; give one between 0 and 1, such as 0.95.`);
}
