// The tag that comes next: the last one counted up, past those that are in use. Pure.
import type { Stand, Stem } from '../../../../stand/index.ts';

/**
 * "A12" -> "A13", "B-09" -> "B-10", "7" -> "8"; what ends in no number gets one: "oak" -> "oak 2". Tags that a stem
 * of the stand carries are passed over.
 */
export function tagAfter(last: string, stand: Stand): string {
  const [, head = '', digits = ''] = /^(.*?)(\d*)$/.exec(last) ?? [];
  const before = digits === '' ? `${last} ` : head;
  let number = digits === '' ? 1 : Number(digits);
  let next = last;
  do {
    number += 1;
    next = before + String(number).padStart(digits.length, '0');
  } while (stand.tags.has(next.toLowerCase()));
  return next;
}

/** The tag of the stem that was marked last in a group (anywhere, without one). */
export function lastTag(stand: Stand, group: string | undefined): string | undefined {
  let last: string | undefined;
  for (const stem of stand.stems.values())
    if (stem.tag !== undefined && (group === undefined || stem.group === group)) last = stem.tag;
  return last;
}

/** How far the numbers of two tags are apart; tags of another series come after all of one's own. */
function distance(tag: string | undefined, from: string): number {
  const [, head = '', digits = ''] = /^(.*?)(\d*)$/.exec(tag ?? '') ?? [];
  const [, fromHead = '', fromDigits = ''] = /^(.*?)(\d*)$/.exec(from) ?? [];
  const away = Math.abs(Number(digits) - Number(fromDigits));
  return head.toLowerCase() === fromHead.toLowerCase() ? away : 1_000_000 + away;
}

/** Stems by how near their tags are to one tag; without it in the order of their tags. */
export function byNearestTag(stems: readonly Stem[], tag: string | undefined): Stem[] {
  const inOrder = [...stems].sort((a, b) =>
    (a.tag ?? '').localeCompare(b.tag ?? '', undefined, { numeric: true }),
  );
  return tag === undefined ? inOrder : inOrder.sort((a, b) => distance(a.tag, tag) - distance(b.tag, tag));
}
