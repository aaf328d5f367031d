// What wedges have to lift and what they can: the stem is a lever from the hinge to its top.
import { lengthIn } from '../../measure/index.ts';

/**
 * Most back lean, in feet, that 2 in of wedging overcomes, by segments (height ÷ DBH). OSHA logging eTool, "Special
 * techniques", as printed; the last row holds for everything above it, and below the first there is no figure.
 */
const BACK_LEAN_BY_SEGMENTS: readonly (readonly [number, number])[] = [
  [30, 4],
  [35, 4.5],
  [40, 5.5],
  [45, 6],
  [50, 6.5],
  [55, 7],
  [60, 8],
  [65, 9],
  [70, 9.5],
  [75, 10],
  [80, 11],
  [90, 12],
  [100, 13],
];

/** What wedging one back lean takes. Lengths in metres. */
export type WedgeNeed = Readonly<{
  backLean: number;
  /** How often the hinge-to-back distance goes into the height. */
  segments: number;
  /** How far the back edge has to be lifted. */
  lift: number;
  /** The same with the width of the saw cut, which is how thick the wedges together have to be. */
  thickness: number;
}>;

/**
 * Lift for a back lean: `back lean ÷ (height ÷ hinge-to-back)`, and the wedge thickness with the kerf. Source: Northern
 * Woodlands, "Felling trees against the lean".
 *
 * @param backLean horizontal, above 0; all in metres
 * @param hingeToBack from the front of the hinge to the back edge of the stump, above 0
 */
export function wedgeNeed(backLean: number, height: number, hingeToBack: number, kerf: number): WedgeNeed {
  const segments = height / hingeToBack;
  const lift = backLean / segments;
  return { backLean, segments, lift, thickness: lift + kerf };
}

/** How much back lean wedges overcome. Metres; undefined where the table has no row. */
export type WedgeLimit = Readonly<{ table: number | undefined; lever: number; limit: number | undefined }>;

/**
 * The smaller of what the table and the plain lever allow. The table is entered with height ÷ DBH, rounded down to a row;
 * a stem below its first row gets no figure, and then there is no limit to plan with.
 *
 * @param thickness of the wedges, metres; the table holds for 2 in (0.0508 m)
 */
export function wedgeLimit(height: number, dbh: number, hingeToBack: number, thickness: number): WedgeLimit {
  const segments = height / dbh + 1e-9;
  const feet = BACK_LEAN_BY_SEGMENTS.findLast(([row]) => row <= segments)?.[1];
  const table = feet === undefined ? undefined : lengthIn(feet, 'ft', 'm');
  const lever = (thickness * height) / hingeToBack;
  return { table, lever, limit: table === undefined ? undefined : Math.min(table, lever) };
}
