/**
 * A place that makes no sense: an unknown reference system, a coordinate out of range.
 * `field` is what was wrong, `value` what was given, `remedy` what to do instead.
 */
export class PlaceError extends Error {
  readonly field: string;
  readonly value: string;
  readonly remedy: string;

  constructor(field: string, value: string, problem: string, remedy: string) {
    super(`${problem} ${remedy}`);
    this.name = 'PlaceError';
    this.field = field;
    this.value = value;
    this.remedy = remedy;
  }
}
