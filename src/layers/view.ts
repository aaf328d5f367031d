// What every layer looks at: the folded stand, where things are, and when things happened.
import type { Resolved, Unresolved } from '../place/index.ts';
import { isUnresolved } from '../place/index.ts';
import { type Folded, type Happening, type Locator, locate } from '../stand/index.ts';
import type { Shape, View } from './layer.ts';

/** The view of a folded stand; `locator` may be handed over when there is one already. */
export function viewOf(folded: Folded, locator: Locator = locate(folded.stand)): View {
  const byEntry = new Map(folded.happenings.map((happening) => [happening.entry.id, happening]));
  return { stand: folded.stand, folded, locator, happening: (entry) => byEntry.get(entry) };
}

/** The shape of a point at a resolved position. */
export function pointShape(where: Resolved | Unresolved): Shape | Unresolved {
  if (isUnresolved(where)) return where;
  const { at, via, standardError } = where;
  return { points: [at], via, standardError };
}

/**
 * When an entry happened, RFC 3339 in UTC, a known offset of the device's clock allowed for. Known only to the
 * day: the start of that day where it was recorded.
 */
export function utc(happening: Happening | undefined): string | null {
  if (happening === undefined) return null;
  const { happenedAt, instant } = happening;
  const moment = happenedAt.precision === 'day' ? Date.parse(happenedAt.at) : instant;
  return Number.isFinite(moment) ? `${new Date(moment).toISOString().slice(0, 19)}Z` : null;
}
