// The tree head on a report: what makes a printout evidence, and how to check it.
import { headText, parseHead, type TreeHead } from '../log/entry/index.ts';
import type { Evidence } from './model.ts';

/**
 * The tree head as it is printed, with a sentence on how to check it.
 * @throws RangeError when the root is not 64 hex digits: a report without a head is no evidence.
 */
export function evidenceOf(head: TreeHead): Evidence {
  const line = headText(head);
  const read = parseHead(line);
  if (!read.ok) {
    throw new RangeError(`${read.issue.field} "${read.issue.value}": ${read.issue.remedy}`);
  }
  return {
    size: head.size,
    root: head.root,
    rootInFours: inFours(head.root),
    check:
      'To check that nothing up to this report was changed, run the command below on the logbook; it fails if any of the entries counted here was altered, removed or put in another order.',
    command: `gapledger verify --since ${line}`,
  };
}

/** Sixty-four hex digits in groups of four, so that they can be read aloud. */
export function inFours(root: string): string {
  return root.match(/.{1,4}/g)?.join(' ') ?? '';
}
