// What is said when nothing can be computed from what was given.

/**
 * A group or a stem for which nothing is computed: a measure that is missing, impossible, or against another one.
 * `field` is what was wrong, `value` what was given, `remedy` what to do instead.
 */
export class FellingError extends Error {
  readonly field: string;
  readonly value: string;
  readonly remedy: string;

  constructor(field: string, value: string, problem: string, remedy: string) {
    super(`${problem} ${remedy}`);
    this.name = 'FellingError';
    this.field = field;
    this.value = value;
    this.remedy = remedy;
  }
}
