// Numbers, days and times as the phone's own locale writes them; plurals as the language of the catalogue bends them.

/** A whole or decimal number with at most so many decimals. */
export function figure(value: number, decimals = 0): string {
  return new Intl.NumberFormat(undefined, { maximumFractionDigits: decimals }).format(value);
}

/** The time of day. @param at milliseconds since 1970 */
export function clock(at: number): string {
  return new Intl.DateTimeFormat(undefined, { hour: 'numeric', minute: '2-digit' }).format(at);
}

/** Day and time, with the year. @param at milliseconds since 1970 */
export function dayAndTime(at: number): string {
  return new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' }).format(at);
}

/** A function that chooses the form of a word for a count, by the rules of the language. */
export function pluralsOf(language: string): (count: number, one: string, other: string) => string {
  const rules = new Intl.PluralRules(language);
  return (count, one, other) => (rules.select(count) === 'one' ? one : other);
}
