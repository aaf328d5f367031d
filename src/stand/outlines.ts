// Outlines of what lies on the ground: corners as entered -> places, how well each is known, and how that came about.
import {
  isUnresolved,
  type LonLat,
  type PositionEntered,
  type Resolved,
  type Unresolved,
} from '../place/index.ts';
import type { Locator } from './where.ts';

export type Outline = Readonly<{
  points: readonly LonLat[];
  /** Standard error of each corner, metres. */
  errors: readonly number[];
  /** "walked edge, 12 corners: …" */
  via: string;
  /** Standard error of the worst corner, metres. */
  standardError: number;
}>;

/**
 * An outline from its corners as entered. One corner that cannot be placed makes it another thing, so then there is none.
 * @param what what it is, in words: "walked edge"
 * @param when RFC 3339, for the declination of corners given by azimuth
 */
export function outlineOf(
  what: string,
  corners: readonly PositionEntered[],
  when: string,
  locator: Locator,
): Outline | Unresolved {
  return outlineThrough(
    what,
    corners.map((entered) => locator.resolve({ entered, when, entry: '' })),
  );
}

/** An outline through places, or why there is none. @param called what its corners are called: "corners" */
export function outlineThrough(
  what: string,
  answers: readonly (Resolved | Unresolved)[],
  called = 'corners',
): Outline | Unresolved {
  const resolved = answers.filter((answer): answer is Resolved => !isUnresolved(answer));
  const missing = answers.find(isUnresolved);
  if (missing !== undefined) {
    const count = answers.length - resolved.length;
    return {
      why: `${count} of the ${answers.length} ${called} of the ${what} cannot be placed: ${missing.why}`,
    };
  }
  const ways = [...new Set(resolved.map(({ via }) => via))];
  const errors = resolved.map(({ standardError }) => standardError);
  return {
    points: resolved.map(({ at }) => at),
    errors,
    via: `${what}, ${resolved.length} ${called}: ${ways.length === 1 ? ways[0] : `${ways[0]}, and others`}`,
    standardError: Math.max(0, ...errors),
  };
}
