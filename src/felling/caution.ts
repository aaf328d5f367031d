// One caution: what it says and what it rests on.

/** What a caution rests on: a rule of law, published advice, or what the trade does without a source. */
export type CautionBasis = 'law' | 'published advice' | 'common practice';

export type Caution = Readonly<{
  text: string;
  basis: CautionBasis;
  /** Where it is written, and how that was checked; for common practice it says that there is no source. */
  source: string;
}>;
