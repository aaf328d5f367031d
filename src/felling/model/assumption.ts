// One assumption of the felling model: its default, unit, range, what it rests on, and what it means in a sentence.

/** What a number rests on: a rule somebody wrote, what the trade does, or nothing but our own guess. */
export type AssumptionBasis = 'source' | 'common practice' | 'guess';

export type Assumption = Readonly<{
  value: number;
  unit: string;
  /** Both ends can be taken. */
  least: number;
  most: number;
  basis: AssumptionBasis;
  /** Where it is written; only with the basis `source`. */
  source?: string;
  says: string;
}>;

export const guess = (
  value: number,
  unit: string,
  least: number,
  most: number,
  says: string,
): Assumption => ({
  value,
  unit,
  least,
  most,
  basis: 'guess',
  says,
});
export const practice = (...of: Parameters<typeof guess>): Assumption => ({
  ...guess(...of),
  basis: 'common practice',
});
export const sourced = (source: string, ...of: Parameters<typeof guess>): Assumption => ({
  ...guess(...of),
  basis: 'source',
  source,
});
