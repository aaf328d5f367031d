// What is said when no order can be computed from what was given.

/**
 * A group for which no order can be computed: stems that wait for each other, a chance out of range.
 * `field` is what was wrong, `value` what was given, `remedy` what to do instead.
 */
export class OrderError extends Error {
  readonly field: string;
  readonly value: string;
  readonly remedy: string;

  constructor(field: string, value: string, problem: string, remedy: string) {
    super(`${problem} ${remedy}`);
    this.name = 'OrderError';
    this.field = field;
    this.value = value;
    this.remedy = remedy;
  }
}
