// Which entries a writer appends: the same number always gives the same bytes, so that a batch can be retried.
import type { Incoming } from '../../../src/log/store/index.ts';
import { entries } from '../invented.ts';

const mostEntries = 1_000_000;

/** Batch `number` of a writer, of `size` entries. */
export function batchOf(writer: number, number: number, size: number): Incoming[] {
  const first = writer * mostEntries + number * size + 1;
  return entries(first, first + size - 1);
}
