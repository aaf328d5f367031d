// Canonical JSON (RFC 8785): one value, one sequence of bytes. A library writes it; whether a text is canonical
// already is asked for every entry at every verification, so the usual case is answered by a shorter way.
import canonicalize from 'canonicalize';

/** Deeper than any form, and shallow enough for every reader that goes down by calling itself. */
export const deepestNesting = 32;

/** The canonical text of a value; undefined when it holds half a surrogate pair or a number that is none. */
export function canonicalText(value: unknown): string | undefined {
  try {
    return canonicalize(value);
  } catch {
    return undefined;
  }
}

export type Order = 'sorted' | 'unsorted' | 'too-deep';

/** Whether the members of all objects stand in the order of RFC 8785 section 3.2.3; goes no deeper than the limit. */
export function orderOf(value: unknown, limit = deepestNesting): Order {
  if (typeof value !== 'object' || value === null) return 'sorted';
  if (limit === 0) return 'too-deep';
  if (Array.isArray(value)) return orderOfAll(value, limit);
  const object = value as Readonly<Record<string, unknown>>;
  let order: Order = 'sorted';
  // No name sorts before the empty one.
  let before = '';
  for (const name of Object.keys(object)) {
    const inner = orderOf(object[name], limit - 1);
    if (inner === 'too-deep') return inner;
    // Comparing JavaScript strings compares UTF-16 code units, as the standard asks.
    if (inner === 'unsorted' || name < before) order = 'unsorted';
    before = name;
  }
  return order;
}

function orderOfAll(values: readonly unknown[], limit: number): Order {
  let order: Order = 'sorted';
  for (const value of values) {
    const inner = orderOf(value, limit - 1);
    if (inner === 'too-deep') return inner;
    if (inner === 'unsorted') order = inner;
  }
  return order;
}

/**
 * Whether `text` is the canonical text of `value`, which was parsed from it and has this order.
 * JSON.stringify writes texts and numbers as RFC 8785 wants (its section 3.2.2 refers to ECMAScript), so where
 * the members are sorted and no half surrogate pair occurs, nothing remains to be done.
 */
export function isCanonical(value: unknown, text: string, order: Order): boolean {
  if (order === 'sorted' && JSON.stringify(value) === text && !text.includes('\\ud')) return true;
  return canonicalText(value) === text;
}
