// What every layer looks at: the folded stand, where things are, and when things happened.
import type { PositionEntered, Resolved, Unresolved } from '../place/index.ts';
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
 * A ring's shape from its corners as entered. One corner that cannot be resolved makes it another area, so
 * then there is none.
 * @param what what the ring is, in words: "walked edge"
 * @param when RFC 3339, for the declination of corners given by azimuth
 */
export function ringShape(
  what: string,
  corners: readonly PositionEntered[],
  when: string,
  locator: Locator,
): Shape | Unresolved {
  const answers = corners.map((entered) => locator.resolve({ entered, when, entry: '' }));
  const resolved = answers.filter((answer): answer is Resolved => !isUnresolved(answer));
  const missing = answers.find(isUnresolved);
  if (missing !== undefined) {
    const count = answers.length - resolved.length;
    return {
      why: `${count} of the ${answers.length} corners of the ${what} cannot be placed: ${missing.why}`,
    };
  }
  const ways = [...new Set(resolved.map(({ via }) => via))];
  return {
    points: resolved.map(({ at }) => at),
    via: `${what}, ${resolved.length} corners: ${ways.length === 1 ? ways[0] : `${ways[0]}, and others`}`,
    ...worstError(resolved),
  };
}

/** The largest standard error of several positions. */
export function worstError(positions: readonly Resolved[]): { standardError?: number } {
  const errors = positions.map(({ standardError }) => standardError);
  return errors.length === 0 ? {} : { standardError: Math.max(...errors) };
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
