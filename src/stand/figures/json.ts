// Figures as plain JSON: every figure with value, unit, method, source and the numbers of the entries it rests on.
import type { Folded } from '../fold.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/**
 * Figures as plain JSON, entries by their number in the log or by id where they have none yet. Infinite values, which
 * JSON does not know, become null.
 */
export function figuresJson(figures: object, { entries }: Pick<Folded, 'entries'>): Json {
  const numberOf = (id: unknown) => (typeof id === 'string' ? (entries.get(id)?.position ?? id) : id);
  const text = JSON.stringify(figures, (key, value: unknown) =>
    key === 'restsOn' && Array.isArray(value) ? value.map(numberOf) : value,
  );
  return JSON.parse(text) as Json;
}
