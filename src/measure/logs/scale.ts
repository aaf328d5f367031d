/** A log as the tape has it, scaled by a board-foot rule: whole inches, even feet and trim, long logs in parts. */
import { isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { doyle } from './doyle.ts';
import { internationalFormula } from './international.ts';
import { internationalTable } from './international-table.ts';
import { EVEN_FEET, type HalfInchTurn, scalingLength } from './scaling.ts';
import { scribnerFormula } from './scribner.ts';
import { scribnerDecimalC } from './scribner-decimal-c.ts';
import { evenSegments, type Segment, segmentsOf, segmentVolume, vermontSections } from './segments.ts';
import { vermont } from './vermont.ts';
import { ruleName, type Volume, type VolumeRule } from './volume.ts';

/** Ways to scale a log in board feet. International as formula and as printed table are two, under one rule. */
export const BOARD_SCALES = [
  'doyle',
  'scribner',
  'scribner-decimal-c',
  'international-quarter-inch',
  'international-table',
  'vermont',
] as const;
export type BoardScale = (typeof BOARD_SCALES)[number];

/** The rules that board feet of logs can be under. */
export type BoardRule = Exclude<VolumeRule, 'cubic-feet' | 'cubic-metres' | 'stacked-cords'>;

type Described = Readonly<{
  rule: BoardRule;
  /** What tells it from another way under the same rule. */
  as: string;
  scale: (diameter: number, length: number) => Volume<BoardRule> | NotEnough;
}>;

const SCALES: Readonly<Record<BoardScale, Described>> = {
  doyle: { rule: 'doyle', as: '', scale: doyle },
  scribner: { rule: 'scribner', as: ', formula', scale: scribnerFormula },
  'scribner-decimal-c': { rule: 'scribner-decimal-c', as: ', published table', scale: scribnerDecimalC },
  'international-quarter-inch': {
    rule: 'international-quarter-inch',
    as: ', formula',
    scale: (diameter, length) => internationalFormula(diameter, length),
  },
  'international-table': {
    rule: 'international-quarter-inch',
    as: ', published table',
    scale: internationalTable,
  },
  vermont: { rule: 'vermont', as: '', scale: vermont },
};

/** True when `word` names a way to scale a log in board feet. */
export function isBoardScale(word: string): word is BoardScale {
  return Object.hasOwn(SCALES, word);
}

/** The rule that volumes by this way are under. */
export function scaleRule(scale: BoardScale): BoardRule {
  return SCALES[scale].rule;
}

/** The way as people write it, e.g. "International ¼-inch, published table". */
export function scaleName(scale: BoardScale): string {
  const { rule, as } = SCALES[scale];
  return `${ruleName(rule)}${as}`;
}

/**
 * A log as measured: one reading at the small end inside bark, or two at right angles, in; its whole length with the
 * trim, ft.
 */
export type TapedLog = Readonly<{ readings: readonly [number] | readonly [number, number]; length: number }>;

/** How logs are scaled beyond the rule. The taper is the caller's: measured at both ends, or named with its source. */
export type Scaling = Readonly<{
  scale: BoardScale;
  /** What the log must have beyond its scaling length, in; 4 if left out, and none by Vermont, whose statute has none. */
  trim?: number | undefined;
  /** In of diameter per ft of length; logs that are scaled in parts need it. */
  taper?: number | undefined;
}>;

/** A log scaled: its parts from the small end, their lengths together in ft, the volume, and the turn of the next log. */
export type ScaledLog = Readonly<{
  segments: readonly Segment[];
  length: number;
  volume: Volume<BoardRule>;
  next: HalfInchTurn;
}>;

/**
 * Scales a log as it is taped. The mean of the readings goes to the nearest inch, exact halves by turn; the length is
 * the largest even number of feet that leaves the trim, 8 ft at least; from 18 ft on the log is scaled in parts of even
 * feet. By Vermont the length is taken as measured, in 12-ft sections from the top end. Sources: those of
 * `scalingDiameter`, `scalingLength`, `evenSegments` and `vermontSections`.
 */
export function scaleLog(
  { readings, length: measured }: TapedLog,
  scaling: Scaling,
  turn: HalfInchTurn,
): ScaledLog | NotEnough {
  const [one, other = one] = readings;
  const wrong = outOfRange(
    { what: 'diameter at the small end', value: Math.min(one, other), unit: 'in', least: 0 },
    { what: 'diameter at the small end', value: Math.max(one, other), unit: 'in', least: 0 },
  );
  if (wrong !== undefined) return wrong;
  const length = lengthToScale(measured, scaling);
  return isNotEnough(length) ? length : scaleToLength((one + other) / 2, length, scaling, turn);
}

/**
 * Scales a log of which the scaling length is known already.
 * @param smallEnd diameter at the small end inside bark, in, unrounded
 * @param length scaling length, ft; even unless by Vermont
 */
export function scaleToLength(
  smallEnd: number,
  length: number,
  scaling: Scaling,
  turn: HalfInchTurn,
): ScaledLog | NotEnough {
  const parts = scaling.scale === 'vermont' ? vermontSections(length) : evenSegments(length);
  if (isNotEnough(parts)) return parts;
  const { taper } = scaling;
  if (parts.length > 1 && taper === undefined) {
    return notEnough(
      `a log of ${length} ft is scaled as ${parts.length}; give its taper, measured at both ends or with its source`,
    );
  }
  const divided = segmentsOf(smallEnd, parts, { taper: taper ?? 0, turn });
  if (isNotEnough(divided)) return divided;
  const { scale } = SCALES[scaling.scale];
  const volume = segmentVolume(divided.segments, scale);
  if (isNotEnough(volume)) return volume;
  return {
    ...divided,
    length,
    volume: {
      ...volume,
      method: [volume.method, ...handling(scaling, parts.length)].join('; '),
      source: [volume.source, ...handlingSources(scaling, parts.length)].join('; '),
    },
  };
}

/**
 * The length that a log is scaled by, ft: what is measured less the trim, by even feet; by Vermont to the inch.
 *
 * @param measured whole length, ft
 */
export function lengthToScale(measured: number, { scale, trim }: Scaling): number | NotEnough {
  if (scale !== 'vermont')
    return scalingLength(measured, {
      ...EVEN_FEET,
      longestFeet: Number.POSITIVE_INFINITY,
      trimInches: trimOf({ scale, trim }),
    });
  const length = measured - trimOf({ scale, trim }) / 12;
  return outOfRange({ what: 'length of the log', value: length, unit: 'ft', least: 0 }) ?? length;
}

/** The trim that is asked of a log, in. */
function trimOf({ scale, trim }: Scaling): number {
  return trim ?? (scale === 'vermont' ? 0 : EVEN_FEET.trimInches);
}

function handling(scaling: Scaling, parts: number): string[] {
  const trim = trimOf(scaling);
  const feet = scaling.scale === 'vermont' ? 'length as measured' : 'even feet';
  const sections = scaling.scale === 'vermont' ? '12-ft sections from the top end' : 'parts of even feet';
  return [
    'diameter to the nearest inch, exact halves down and up in turn',
    trim === 0 ? feet : `${feet} less ${trim} in of trim`,
    ...(parts > 1 ? [`long logs in ${sections}, taper ${shownTaper(scaling.taper ?? 0)} in/ft`] : []),
  ];
}

function shownTaper(taper: number): number {
  return Number(taper.toFixed(4));
}

function handlingSources({ scale }: Scaling, parts: number): string[] {
  if (scale === 'vermont') return [];
  const measuring = 'landowner article (docslib.org, doc/1153377)';
  return parts > 1 ? [measuring, 'Georgia Code 2-14-80'] : [measuring];
}
