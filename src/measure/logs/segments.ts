/** Long logs are scaled as several: how a length is divided, and the diameter at which each part is scaled. */
import { isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type HalfInchTurn, nearestInch } from './scaling.ts';
import { VERMONT_SECTION } from './vermont.ts';
import { sumVolumes, type Volume, type VolumeRule } from './volume.ts';

/** A part of a log: the diameter at its own small end in whole inches, and its length in feet. */
export type Segment = Readonly<{ diameter: number; length: number }>;

/**
 * Lengths of the parts as which a log is scaled, from the small end: under 18 ft one, 18 to under 34 ft two, from
 * 34 ft three or more, all of even feet and at most 16 ft. Source: Georgia Code 2-14-80. Parts are as nearly alike as
 * even feet allow and the shorter ones lie at the small end (common practice, no source).
 *
 * @param length scaling length, even feet
 */
export function evenSegments(length: number): readonly number[] | NotEnough {
  const wrong = outOfRange({ what: 'scaling length', value: length, unit: 'ft', least: 2 });
  if (wrong !== undefined) return wrong;
  if (length % 2 !== 0) return notEnough(`segments are of even feet, the scaling length is ${length} ft`);
  const parts = length < 18 ? 1 : Math.max(length < 34 ? 2 : 3, Math.ceil(length / 16));
  const pairs = length / 2;
  const shorter = Math.floor(pairs / parts);
  const longer = pairs % parts;
  return Array.from({ length: parts }, (_, at) => 2 * (at < parts - longer ? shorter : shorter + 1));
}

/**
 * Lengths of the sections of the Vermont statute: 12 ft each from the top end, what is left over at the butt.
 * Source: 9 V.S.A. § 2693.
 */
export function vermontSections(length: number): readonly number[] | NotEnough {
  const wrong = outOfRange({ what: 'length of the log', value: length, unit: 'ft', least: 0 });
  if (wrong !== undefined) return wrong;
  const whole = Math.floor(length / VERMONT_SECTION);
  const rest = length - whole * VERMONT_SECTION;
  return [...Array.from({ length: whole }, () => VERMONT_SECTION), ...(rest > 0 ? [rest] : [])];
}

/**
 * The parts with their diameters: the small end of each is the small end of the log plus the taper down to there, to
 * the nearest inch, exact halves by turn. The taper is the caller's: measured at both ends, or named with its source.
 *
 * @param smallEnd diameter at the small end of the log inside bark, in, unrounded
 * @param lengths of the parts from the small end, ft
 * @param taper in of diameter per ft of length
 */
export function segmentsOf(
  smallEnd: number,
  lengths: readonly number[],
  { taper, turn }: Readonly<{ taper: number; turn: HalfInchTurn }>,
): Readonly<{ segments: readonly Segment[]; next: HalfInchTurn }> | NotEnough {
  const wrong = outOfRange(
    { what: 'small-end diameter', value: smallEnd, unit: 'in', least: 0 },
    { what: 'taper', value: taper, unit: 'in/ft', least: 0 },
  );
  if (wrong !== undefined) return wrong;
  let next = turn;
  let down = 0;
  const segments = lengths.map((length) => {
    const scaled = nearestInch(smallEnd + taper * down, next);
    next = scaled.next;
    down += length;
    return { diameter: scaled.diameter, length };
  });
  return { segments, next };
}

/** The volume of a log as the sum of its parts, each by the rule given; the first part that fails says why. */
export function segmentVolume<Rule extends VolumeRule>(
  segments: readonly Segment[],
  rule: (diameter: number, length: number) => Volume<Rule> | NotEnough,
): Volume<Rule> | NotEnough {
  const parts: Volume<Rule>[] = [];
  for (const { diameter, length } of segments) {
    const part = rule(diameter, length);
    if (isNotEnough(part)) return part;
    parts.push(part);
  }
  return parts.length === 0 ? notEnough('the log has no segment') : sumVolumes(parts);
}
